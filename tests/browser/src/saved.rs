//! The design as a file, as the page hands it out, and how two of them compare.

use std::time::SystemTime;

use serde_json::{Value, json};

use crate::output;
use crate::page::Page;

/// How far two sizes may differ that went through a link, mm; the same number serves kilograms,
/// where links are far finer.
const LINK_ACCURACY: f64 = 0.001;
const MM_PER_INCH: f64 = 25.4;

impl Page {
    /// Presses "save as file" and reads the file that comes.
    pub fn saved_design(&self) -> Value {
        let mut design = Value::Null;
        self.saved("save as file", |name, bytes| {
            // A file that is still being written is no JSON yet.
            if name.ends_with(".headwright.json") {
                design = serde_json::from_slice(bytes).unwrap_or_default();
            }
            design.is_object()
        });
        design
    }

    /// Presses a button and returns the text of the file with this ending that comes.
    pub fn saved_text(&self, button: &str, ending: &str) -> String {
        let mut saved = String::new();
        self.saved(button, |name, bytes| {
            saved = String::from_utf8_lossy(bytes).into_owned();
            name.ends_with(ending) && !bytes.is_empty()
        });
        saved
    }

    /// Presses the button for a format and returns the name and the bytes of the file that comes, once
    /// `whole` says that they are all there.
    pub fn saved_shape(&self, format: &str, whole: fn(&[u8]) -> bool) -> (String, Vec<u8>) {
        self.saved_as(&format!("save the shape as {format}"), whole)
    }

    /// The same of any button that saves a file.
    pub fn saved_as(&self, button: &str, whole: fn(&[u8]) -> bool) -> (String, Vec<u8>) {
        let mut shape = None;
        self.saved(button, |name, bytes| {
            // The browser writes to another name first.
            let done = !name.ends_with(".crdownload") && whole(bytes);
            if done {
                shape = Some((name.to_owned(), bytes.to_vec()));
            }
            done
        });
        shape.expect("it was waited for")
    }

    /// Presses a button and shows `take` the name and the content of every file that comes, until it has
    /// what it wants.
    fn saved(&self, button: &str, mut take: impl FnMut(&str, &[u8]) -> bool) {
        let stamp = SystemTime::now()
            .duration_since(SystemTime::UNIX_EPOCH)
            .map(|time| time.as_nanos())
            .unwrap_or_default();
        let folder = output().join(format!("saved-{stamp}"));
        std::fs::create_dir_all(&folder).expect("a folder for the file can be made");
        self.command(
            "Browser.setDownloadBehavior",
            json!({ "behavior": "allow", "downloadPath": folder }),
        );
        self.press("button", button);
        self.wait("the file has come", || {
            let mut files = std::fs::read_dir(&folder).into_iter().flatten().flatten();
            files.any(|file| {
                let name = file.file_name();
                std::fs::read(file.path()).is_ok_and(|bytes| take(&name.to_string_lossy(), &bytes))
            })
        });
        std::fs::remove_dir_all(&folder).expect("the folder for the file can be removed");
    }
}

/// What differs between two design files by more than a link may lose, each with its place.
pub fn differences(a: &Value, b: &Value) -> Vec<String> {
    let mut all = Vec::new();
    compare("", a, b, &mut all);
    all
}

fn compare(place: &str, a: &Value, b: &Value, all: &mut Vec<String>) {
    match (a, b) {
        (Value::Object(left), Value::Object(right)) => {
            let mut keys: Vec<&String> = left.keys().chain(right.keys()).collect();
            keys.sort();
            keys.dedup();
            for key in keys {
                let place = format!("{place}/{key}");
                compare(&place, &a[key.as_str()], &b[key.as_str()], all);
            }
        }
        (Value::Array(left), Value::Array(right)) if left.len() == right.len() => {
            for (index, (a, b)) in left.iter().zip(right).enumerate() {
                compare(&format!("{place}/{index}"), a, b, all);
            }
        }
        _ if a == b => {}
        _ => match (measure(a), measure(b)) {
            (Some((x, u)), Some((y, v))) if u == v && (x - y).abs() <= LINK_ACCURACY => {}
            _ => all.push(format!("{place}: {a} became {b}")),
        },
    }
}

/// A number and its unit; inches as millimetres, but still called inches.
fn measure(value: &Value) -> Option<(f64, String)> {
    if let Some(number) = value.as_f64() {
        return Some((number, String::new()));
    }
    let text = value.as_str()?;
    let letters = text.find(char::is_alphabetic).unwrap_or(text.len());
    let (number, unit) = text.split_at(letters);
    let mut sum = 0.0;
    for part in number.split_whitespace() {
        sum += match part.split_once('/') {
            Some((above, below)) => above.parse::<f64>().ok()? / below.parse::<f64>().ok()?,
            None => part.parse::<f64>().ok()?,
        };
    }
    let scale = match unit {
        "in" => MM_PER_INCH,
        "cm" => 10.0,
        _ => 1.0,
    };
    Some((sum * scale, unit.to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_compared_by_size_and_notation() {
        let file = |length: &str| json!({ "cheeks": { "length": length, "steps": [1, "a"] } });
        assert!(differences(&file("43.2837 mm"), &file("43.2841 mm")).is_empty());
        assert!(differences(&file("2 1/4 in"), &file("2 1/4 in")).is_empty());
        assert_eq!(
            differences(&file("43.28 mm"), &file("43.282 mm")),
            ["/cheeks/length: \"43.28 mm\" became \"43.282 mm\""]
        );
        assert_eq!(differences(&file("2 in"), &file("50.8 mm")).len(), 1);
        assert_eq!(differences(&file("2 in"), &json!({})).len(), 1);
    }
}
