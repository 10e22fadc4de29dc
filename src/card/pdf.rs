//! Pages as PDF.

use pdf_writer::types::{
    CidFontType, FontFlags, LineCapStyle, LineJoinStyle, SystemInfo, TextRenderingMode, UnicodeCmap,
};
use pdf_writer::{Content, Finish, Name, Pdf, Rect, Ref, Str, TextStr};

use super::ink::{Anchor, Ink, Page, Path, Text};
use super::letters::{self, CHARACTERS, Font};
use super::svg::HALO_MM;

/// Points to the millimetre.
const POINTS_PER_MM: f64 = 72.0 / 25.4;
const UNICODE: SystemInfo = SystemInfo {
    registry: Str(b"Adobe"),
    ordering: Str(b"Identity"),
    supplement: 0,
};

/// `pages` as one PDF at 1:1, with their fonts; it asks the printer’s dialog not to scale it.
///
/// It depends on the pages alone: no date, no chance.
pub fn pdf(pages: &[Page], title: &str) -> Vec<u8> {
    let mut pdf = Pdf::new();
    let mut next = 1;
    let mut id = || {
        let id = Ref::new(next);
        next += 1;
        id
    };
    let (catalog, tree, info) = (id(), id(), id());
    let fonts = Font::ALL.map(|font| (font, id()));
    for (font, root) in fonts {
        let ids = [root, id(), id(), id(), id()];
        embed(&mut pdf, font, ids);
    }
    let ids: Vec<[Ref; 2]> = pages.iter().map(|_| [id(), id()]).collect();
    let mut root = pdf.catalog(catalog);
    root.pages(tree);
    root.lang(TextStr("en"));
    root.viewer_preferences()
        .pair(Name(b"PrintScaling"), Name(b"None"))
        .pair(Name(b"DisplayDocTitle"), true);
    root.finish();
    pdf.document_info(info)
        .title(TextStr(title))
        .creator(TextStr("Headwright"));
    pdf.pages(tree)
        .kids(ids.iter().map(|[page, _]| *page))
        .count(pages.len() as i32);
    for (page, [place, content]) in pages.iter().zip(ids) {
        let [w, h] = page.size.map(|mm| (mm * POINTS_PER_MM) as f32);
        let mut entry = pdf.page(place);
        entry.parent(tree).media_box(Rect::new(0.0, 0.0, w, h));
        entry.contents(content);
        let mut resources = entry.resources();
        let mut named = resources.fonts();
        for (font, root) in fonts {
            named.pair(resource(font), root);
        }
        named.finish();
        resources.finish();
        entry.finish();
        pdf.stream(content, &drawn(page));
    }
    pdf.finish()
}

fn resource(font: Font) -> Name<'static> {
    Name(match font {
        Font::Plain => b"P",
        Font::Bold => b"B",
        Font::Heading => b"H",
    })
}

/// A font with all its glyphs, whose text can be copied again.
fn embed(pdf: &mut Pdf, font: Font, [root, cid, descriptor, file, cmap]: [Ref; 5]) {
    let name = Name(font.name().as_bytes());
    pdf.type0_font(root)
        .base_font(name)
        .encoding_predefined(Name(b"Identity-H"))
        .descendant_font(cid)
        .to_unicode(cmap);
    let mut entry = pdf.cid_font(cid);
    entry
        .subtype(CidFontType::Type2)
        .base_font(name)
        .system_info(UNICODE)
        .font_descriptor(descriptor)
        .default_width(0.0)
        .cid_to_gid_map_predefined(Name(b"Identity"));
    entry
        .widths()
        .consecutive(1, font.widths().iter().map(|width| f32::from(*width)));
    entry.finish();
    pdf.font_descriptor(descriptor)
        .name(name)
        .flags(FontFlags::SYMBOLIC)
        .bbox(Rect::new(-400.0, -300.0, 1000.0, 950.0))
        .italic_angle(0.0)
        .ascent(900.0)
        .descent(-300.0)
        .cap_height(641.0)
        .stem_v(90.0)
        .font_file2(file);
    let bytes = font.file();
    pdf.stream(file, bytes)
        .pair(Name(b"Length1"), bytes.len() as i32);
    let mut unicode = UnicodeCmap::new(Name(b"Headwright"), UNICODE);
    for (glyph, letter) in (1_u16..).zip(CHARACTERS.chars()) {
        unicode.pair(glyph, letter);
    }
    pdf.cmap(cmap, &unicode.finish());
}

/// The content of a page, in mm from the upper left corner.
fn drawn(page: &Page) -> Vec<u8> {
    let mut content = Content::new();
    let scale = POINTS_PER_MM as f32;
    let high = (page.size[1] * POINTS_PER_MM) as f32;
    content.transform([scale, 0.0, 0.0, -scale, 0.0, high]);
    content.set_line_join(LineJoinStyle::RoundJoin);
    content.set_line_cap(LineCapStyle::ButtCap);
    for ink in &page.inks {
        match ink {
            Ink::Path(path) => draw(&mut content, path),
            Ink::Text(text) => say(&mut content, text),
        }
    }
    content.finish().to_vec()
}

fn draw(content: &mut Content, path: &Path) {
    if let Some(pen) = path.pen {
        content.set_line_width(pen.width_mm() as f32);
        content.set_dash_pattern(pen.dashes_mm().iter().map(|mm| *mm as f32), 0.0);
        content.set_stroke_gray(0.0);
    }
    if let Some(fill) = path.fill {
        content.set_fill_gray(fill as f32);
    }
    for row in &path.rows {
        for (index, [x, y]) in row.iter().enumerate() {
            let (x, y) = (*x as f32, *y as f32);
            if index == 0 {
                content.move_to(x, y);
            } else {
                content.line_to(x, y);
            }
        }
        if path.closed {
            content.close_path();
        }
    }
    match (path.fill, path.pen) {
        (Some(_), Some(_)) => content.fill_nonzero_and_stroke(),
        (Some(_), None) => content.fill_nonzero(),
        (None, Some(_)) => content.stroke(),
        (None, None) => content.end_path(),
    };
}

fn say(content: &mut Content, text: &Text) {
    let glyphs: Vec<u8> = text
        .words
        .chars()
        .filter_map(|letter| letters::glyph(letter, text.font))
        .flat_map(|(glyph, _)| glyph.to_be_bytes())
        .collect();
    if glyphs.is_empty() {
        return;
    }
    let back = match text.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => 0.5 * text.width(),
        Anchor::End => text.width(),
    };
    let [x, y] = text.at;
    // The page's axes point down, letters stand up.
    let matrix = if text.upright {
        [0.0, -1.0, -1.0, 0.0, x, y + back]
    } else {
        [1.0, 0.0, 0.0, -1.0, x - back, y]
    };
    let write = |content: &mut Content| {
        content.begin_text();
        content.set_font(resource(text.font), text.size as f32);
        content.set_text_matrix(matrix.map(|number| number as f32));
        content.show(Str(&glyphs));
        content.end_text();
    };
    if text.halo {
        content.set_text_rendering_mode(TextRenderingMode::Stroke);
        content.set_line_width(HALO_MM as f32);
        content.set_dash_pattern([], 0.0);
        content.set_stroke_gray(1.0);
        write(content);
        content.set_text_rendering_mode(TextRenderingMode::Fill);
    }
    content.set_fill_gray(0.0);
    write(content);
}
