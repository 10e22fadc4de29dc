//! Words to find an entry by.

/// The most tags of an entry.
pub const MOST_TAGS: usize = 12;
/// The longest tag, in characters.
pub const LONGEST_TAG: usize = 30;

/// Why a text is no row of tags.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TagError {
    /// More than an entry bears.
    #[error("There are {0} tags; an entry has at most {MOST_TAGS}.")]
    TooMany(usize),
    /// One that is too long.
    #[error("The tag “{0} …” is longer than {LONGEST_TAG} characters.")]
    TooLong(String),
    /// One that would not be read again as it is.
    #[error("The tag “{0}” is empty, or has a comma, a line end or a blank too many in it.")]
    Untidy(String),
    /// One that stands twice.
    #[error("The tag “{0}” stands twice.")]
    Twice(String),
}

/// Reads tags that are parted by commas: blanks around them go, one that stands twice counts once.
///
/// # Errors
/// Too many of them, or one that is too long.
///
/// # Examples
/// ```
/// let tags = headwright::rack::read_tags("sold,  for Anna , Sold").expect("two tags");
/// assert_eq!(tags, ["sold", "for Anna"]);
/// ```
pub fn read_tags(text: &str) -> Result<Vec<String>, TagError> {
    let mut tags: Vec<String> = Vec::new();
    for tag in text.split(',').map(tidy).filter(|tag| !tag.is_empty()) {
        if !has(&tags, &tag) {
            tags.push(tag);
        }
    }
    checked(tags)
}

/// `tags` if an entry can bear them.
pub(super) fn checked(tags: Vec<String>) -> Result<Vec<String>, TagError> {
    if tags.len() > MOST_TAGS {
        return Err(TagError::TooMany(tags.len()));
    }
    for (place, tag) in tags.iter().enumerate() {
        if tag.chars().count() > LONGEST_TAG {
            return Err(TagError::TooLong(tag.chars().take(LONGEST_TAG).collect()));
        }
        if tag.is_empty() || tidy(tag) != *tag || tag.contains(',') {
            return Err(TagError::Untidy(tag.clone()));
        }
        if tags.get(..place).is_some_and(|before| has(before, tag)) {
            return Err(TagError::Twice(tag.clone()));
        }
    }
    Ok(tags)
}

/// Whether one of `tags` is `tag`, capitals or not.
fn has(tags: &[String], tag: &str) -> bool {
    let small = tag.to_lowercase();
    tags.iter().any(|other| other.to_lowercase() == small)
}

/// `text` with single blanks between its words and none around them.
fn tidy(text: &str) -> String {
    let plain = |c: char| if c.is_control() { ' ' } else { c };
    let text: String = text.chars().map(plain).collect();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
