"""Cuts the card's fonts and writes their widths; called by `make` with the folder of the full fonts and its own."""

import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables._g_l_y_f import Glyph

FONTS = [
    ("alegreya-sans/400Regular/AlegreyaSans_400Regular.ttf", "alegreya-sans-400"),
    ("alegreya-sans/700Bold/AlegreyaSans_700Bold.ttf", "alegreya-sans-700"),
    ("podkova/600SemiBold/Podkova_600SemiBold.ttf", "podkova-600"),
]
CHARACTERS = (
    "".join(map(chr, [*range(0x20, 0x7F), *range(0xA1, 0xAD), *range(0xAE, 0x100)]))
    + "ŒœŠšŽžČčĆćŁłŃńŐőŰűŞşĞğİı–’“”−½¼¾⅛⅜⅝⅞…≈≤≥→←↑↓"
)
CHARACTERS = "".join(dict.fromkeys(CHARACTERS))
# How wide a space is at least, in thousandths: that of Alegreya Sans would let 1 1/8 be read as 11/8.
SPACE = 250


def figures(font):
    """The lining, tabular figures by their plain ones, as far as the font has such features."""
    found = {}
    if "GSUB" not in font:
        return found
    table = font["GSUB"].table
    for tag in ("lnum", "tnum"):
        lookups = {
            index
            for record in table.FeatureList.FeatureRecord
            if record.FeatureTag == tag
            for index in record.Feature.LookupListIndex
        }
        for index in sorted(lookups):
            for subtable in table.LookupList.Lookup[index].SubTable:
                mapping = getattr(getattr(subtable, "ExtSubTable", subtable), "mapping", {})
                for plain in "zero one two three four five six seven eight nine".split():
                    now = found.get(plain, plain)
                    found[plain] = mapping.get(now, now)
    return found


def cut(source, target):
    font = TTFont(source)
    cmap, lined = font.getBestCmap(), figures(font)
    wanted = [lined.get(cmap.get(ord(c)), cmap.get(ord(c))) for c in CHARACTERS]
    options = Options()
    options.hinting = False
    options.layout_features = []
    options.notdef_outline = True
    options.name_IDs = []
    options.glyph_names = True
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "STAT", "gasp", "DSIG", "OS/2"]
    subsetter = Subsetter(options)
    subsetter.populate(glyphs=[name for name in wanted if name])
    subsetter.subset(font)
    glyphs, metrics = font["glyf"], font["hmtx"]
    # One glyph for every character, in their order; parts of composed ones come last.
    order, made = [".notdef"], {".notdef": (glyphs[".notdef"], metrics[".notdef"])}
    for index, name in enumerate(wanted):
        new = f"c{index:03}"
        order.append(new)
        made[new] = (glyphs[name], metrics[name]) if name else (Glyph(), (0, 0))
    glyph, (width, side) = made["c000"]
    made["c000"] = (glyph, (max(width, SPACE), side))
    parts = [n for n in font.getGlyphOrder() if n != ".notdef"]
    used = {c.glyphName for g, _ in made.values() if g.isComposite() for c in g.components}
    for name in [n for n in parts if n in used]:
        order.append(name)
        made[name] = (glyphs[name], metrics[name])
        if glyphs[name].isComposite():
            raise SystemExit(f"{name} is composed of parts that are composed")
    font.setGlyphOrder(order)
    glyphs.glyphs = {name: glyph for name, (glyph, _) in made.items()}
    glyphs.glyphOrder = order
    metrics.metrics = {name: width for name, (_, width) in made.items()}
    font["post"].formatType = 3.0
    for table in font["cmap"].tables[1:]:
        font["cmap"].tables.remove(table)
    font["cmap"].tables[0].cmap = {ord(c): f"c{k:03}" for k, c in enumerate(CHARACTERS)}
    font.save(target)
    scale = 1000 / font["head"].unitsPerEm
    return [round(metrics[f"c{k:03}"][0] * scale) if wanted[k] else 0 for k in range(len(CHARACTERS))]


def main():
    full, here = Path(sys.argv[1]), Path(sys.argv[2])
    rows = [cut(full / source, here / f"{name}.ttf") for source, name in FONTS]
    text = CHARACTERS.replace("\\", "\\\\").replace('"', '\\"')
    lines = [
        "//! Written by `make` beside it.",
        "",
        "/// The characters that the card can set; the first is glyph 1 of every font, the next glyph 2.",
        "#[rustfmt::skip]",
        f'pub(super) const CHARACTERS: &str = "{text}";',
        "/// How wide they are in each of the fonts, in thousandths of their size; 0 where a font lacks one.",
        "#[rustfmt::skip]",
        f"pub(super) const WIDTHS: [[u16; {len(CHARACTERS)}]; {len(rows)}] = [",
    ]
    for row in rows:
        lines.append("    [")
        for at in range(0, len(row), 24):
            lines.append("        " + " ".join(f"{width}," for width in row[at : at + 24]))
        lines.append("    ],")
    lines.append("];")
    (here / "widths.rs").write_text("\n".join(lines) + "\n")


main()
