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
        self.press("button", "save as file");
        let mut design = Value::Null;
        self.wait("the file has come", || {
            let files = std::fs::read_dir(&folder).into_iter().flatten().flatten();
            let mut whole = files.filter(|file| {
                file.file_name()
                    .to_string_lossy()
                    .ends_with(".headwright.json")
            });
            let text = whole
                .next()
                .and_then(|file| std::fs::read_to_string(file.path()).ok());
            // A file that is still being written is no JSON yet.
            design = text
                .and_then(|text| serde_json::from_str(&text).ok())
                .unwrap_or_default();
            design.is_object()
        });
        std::fs::remove_dir_all(&folder).expect("the folder for the file can be removed");
        design
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
