//! Finding entries by words.

use super::entry::Entry;

/// Whether `entry` has every word of `words` somewhere in its name, its note or its tags, capitals or not. No words
/// find every entry.
pub fn finds(words: &str, entry: &Entry) -> bool {
    let mut texts = vec![
        entry.design.name.to_lowercase(),
        entry.design.note.to_lowercase(),
    ];
    texts.extend(entry.tags.iter().map(|tag| tag.to_lowercase()));
    let words = words.to_lowercase();
    words
        .split_whitespace()
        .all(|word| texts.iter().any(|text| text.contains(word)))
}
