//! A package of named parts, stored as they are, for formats that are such a package.
//!
//! A crate that compresses would take more of what the browser downloads than all three formats
//! together, and the fast crates for the check sum carry 16 kB of tables. Stored parts are about
//! thirty lines and the check sum ten, with its table made when it is needed.
//!
//! # Source
//! PKWARE, .ZIP file format specification, version 6.3, sections 4.3 and 4.4.

/// What reading a part takes: version 2.0 of the format.
const VERSION: u16 = 20;
/// 1 January 1980, the earliest date there is: the same head makes the same file on any day.
const DATE: u16 = 0x0021;

/// Packs `parts`, names and contents, in their order.
///
/// Sizes and places are counted in 32 bits: a package of 4 GB and more, which no head at the
/// tolerance for export comes near, is not readable.
pub(super) fn package(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let room: usize = parts
        .iter()
        .map(|(name, content)| 2 * name.len() + content.len() + 76)
        .sum();
    let mut bytes = Vec::with_capacity(room + 22);
    let mut directory = Vec::new();
    for (name, content) in parts {
        let start = bytes.len() as u32;
        let mut about = Vec::with_capacity(26);
        // Version, flags, method (stored), time and date.
        for short in [VERSION, 0, 0, 0, DATE] {
            about.extend(short.to_le_bytes());
        }
        let size = content.len() as u32;
        for long in [crc32(content), size, size] {
            about.extend(long.to_le_bytes());
        }
        about.extend((name.len() as u16).to_le_bytes());
        about.extend([0, 0]);

        bytes.extend(b"PK\x03\x04");
        bytes.extend(&about);
        bytes.extend(name.as_bytes());
        bytes.extend(*content);

        directory.extend(b"PK\x01\x02");
        directory.extend(VERSION.to_le_bytes());
        directory.extend(&about);
        // No comment, the first disk, no attributes.
        directory.extend([0; 10]);
        directory.extend(start.to_le_bytes());
        directory.extend(name.as_bytes());
    }
    let start = bytes.len() as u32;
    bytes.extend(&directory);
    bytes.extend(b"PK\x05\x06\0\0\0\0");
    let count = parts.len() as u16;
    for short in [count, count] {
        bytes.extend(short.to_le_bytes());
    }
    bytes.extend((directory.len() as u32).to_le_bytes());
    bytes.extend(start.to_le_bytes());
    bytes.extend([0, 0]);
    bytes
}

/// The check sum of ISO/IEC 13239 that the format asks for, least bit first.
fn crc32(bytes: &[u8]) -> u32 {
    let table: [u32; 256] = std::array::from_fn(|byte| {
        (0..8).fold(byte as u32, |sum, _| {
            (sum >> 1) ^ (0xEDB8_8320 & (sum & 1).wrapping_neg())
        })
    });
    !bytes.iter().fold(u32::MAX, |sum, byte| {
        (sum >> 8) ^ table[usize::from(sum as u8 ^ byte)]
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_check_sum_is_that_of_the_published_example() {
        assert_eq!(crc32(b"123456789"), 0xCBF4_3926);
        assert_eq!(crc32(b""), 0);
    }

    #[test]
    fn every_part_is_found_through_the_directory() {
        let parts: [(&str, &[u8]); 3] = [("a.txt", b"one"), ("b/c.txt", b""), ("d", b"three")];
        let bytes = package(&parts);
        let short = |at: usize| usize::from(u16::from_le_bytes([bytes[at], bytes[at + 1]]));
        let long = |at: usize| short(at) + (short(at + 2) << 16);
        let end = bytes.len() - 22;
        assert_eq!(bytes[end..end + 4], *b"PK\x05\x06");
        assert_eq!(short(end + 8), parts.len());
        assert_eq!(short(end + 10), parts.len());
        let mut entry = long(end + 16);
        assert_eq!(entry + long(end + 12), end);
        for (name, content) in parts {
            assert_eq!(bytes[entry..entry + 4], *b"PK\x01\x02");
            assert_eq!(bytes[entry + 46..entry + 46 + name.len()], *name.as_bytes());
            let part = long(entry + 42);
            assert_eq!(bytes[part..part + 4], *b"PK\x03\x04");
            // What the directory says of a part is what the part says of itself.
            assert_eq!(bytes[part + 4..part + 30], bytes[entry + 6..entry + 32]);
            assert_eq!(long(part + 14) as u32, crc32(content));
            assert_eq!(long(part + 18), content.len());
            assert_eq!(long(part + 22), content.len());
            let inside = part + 30 + name.len();
            assert_eq!(bytes[part + 30..inside], *name.as_bytes());
            assert_eq!(bytes[inside..inside + content.len()], *content);
            entry += 46 + name.len();
        }
        assert_eq!(entry, end);
    }
}
