//! What the sketches are drawn on: parts of a head, of a tool and of a bar, 180 × 88.

use super::Lines;

/// A head from the side, its front at the right.
pub const SIDE: Lines = &[
    (
        "steel",
        "M68 22H112C119 22 119 27 126 27C132 27 132 24 138 24H147L149 26Q153 42 149 58L147 60H138C132 60 132 57 126 57C119 57 119 62 112 62H68C61 62 61 57 54 57C48 57 48 60 42 60H33L31 58Q27 42 31 26L33 24H42C48 24 48 27 54 27C61 27 61 22 68 22Z",
    ),
    ("hidden", "M77 22L79 42 77 62M103 22L101 42 103 62"),
    ("axis", "M90 4V84"),
];

/// The same from above.
pub const TOP: Lines = &[
    (
        "steel",
        "M68 22H112C119 22 119 27 126 27C132 27 132 24 138 24H147L149 26Q153 42 149 58L147 60H138C132 60 132 57 126 57C119 57 119 62 112 62H68C61 62 61 57 54 57C48 57 48 60 42 60H33L31 58Q27 42 31 26L33 24H42C48 24 48 27 54 27C61 27 61 22 68 22Z",
    ),
    ("eye", "M86 33H94A9 9 0 0 1 94 51H86A9 9 0 0 1 86 33Z"),
    ("axis", "M18 42H166"),
];

/// The same from above, with cheeks that swell.
pub const SWELL: Lines = &[
    (
        "steel",
        "M68 22Q90 6 112 22C119 22 119 27 126 27C132 27 132 24 138 24H147L149 26Q153 42 149 58L147 60H138C132 60 132 57 126 57C119 57 119 62 112 62Q90 78 68 62C61 62 61 57 54 57C48 57 48 60 42 60H33L31 58Q27 42 31 26L33 24H42C48 24 48 27 54 27C61 27 61 22 68 22Z",
    ),
    ("eye", "M86 33H94A9 9 0 0 1 94 51H86A9 9 0 0 1 86 33Z"),
    ("axis", "M68 22H112M68 62H112"),
];

/// A section across the head.
pub const SECTION: Lines = &[("steel", "M62 14H118L130 26V62L118 74H62L50 62V26Z")];

/// An end with a ball.
pub const BALL: Lines = &[
    (
        "steel",
        "M30 20H70C88 20 88 31 107.800 31A24 24 0 1 1 107.800 57C88 57 88 68 70 68H30Z",
    ),
    ("axis", "M50 6V82"),
];

/// A section through the eye, along the head.
pub const EYE: Lines = &[
    ("steel", "M50 14H66L72 44 66 74H50Z"),
    ("steel", "M130 14H114L108 44 114 74H130Z"),
    ("axis", "M90 3V85"),
];

/// The outline of an eye.
pub const EYE_PLAN: Lines = &[
    ("steel", "M28 8H152V80H28Z"),
    ("eye", "M70 20H110A24 24 0 0 1 110 68H70A24 24 0 0 1 70 20Z"),
];

/// A block with lugs, from the side.
pub const LUGS: Lines = &[
    (
        "steel",
        "M30 26H66C74 26 74 12 82 12H98C106 12 106 26 114 26H150V62H114C106 62 106 76 98 76H82C74 76 74 62 66 62H30Z",
    ),
    ("hidden", "M78 12L80 44 78 76M102 12L100 44 102 76"),
];

/// A block whose eye lies in front of its middle, from the side.
pub const OFFSET: Lines = &[
    ("steel", "M40 22H120V68H40Z"),
    ("hidden", "M79 22L81 45 79 68M105 22L103 45 105 68"),
    ("axis", "M92 4V86M80 4V86"),
];

/// A block whose eye leans, from the side.
pub const LEANING: Lines = &[
    ("steel", "M40 22H140V66H40Z"),
    ("hidden", "M72 66L80 22M100 66L108 22"),
    ("axis", "M90 4V84"),
];

/// A cross pein from the side.
pub const PEIN: Lines = &[
    (
        "steel",
        "M30 18H80C92 18 100 34 140 38A6 6 0 0 1 140 50C100 54 92 70 80 70H30Z",
    ),
    ("axis", "M40 4V84M80 18V70"),
];

/// A cross pein from above.
pub const PEIN_TOP: Lines = &[
    (
        "steel",
        "M30 22H80C104 22 112 16 134 16Q140 16 140.500 21Q148 44 140.500 67Q140 72 134 72C112 72 104 66 80 66H30Z",
    ),
    ("axis", "M80 22V66"),
];

/// A pein from its end, with the way its edge lies.
pub const PEIN_END: Lines = &[
    ("steel", "M60 44A30 30 0 1 0 120 44A30 30 0 1 0 60 44Z"),
    ("axis", "M48 44H132"),
];

/// A head that hangs from a pin through its handle, and the plumb line.
pub const HUNG: Lines = &[
    ("wood", "M87 4L77 78 82 79 92 5Z"),
    ("steel", "M42 29L141 43 138 71 39 57Z"),
    ("axis", "M90 4V86"),
];

/// A section through the eye with the handle in it.
pub const TONGUE: Lines = &[
    ("wood", "M58 88L66 75 73 44 68 12H112L107 44 114 75 122 88Z"),
    ("steel", "M46 14H66L72 44 66 74H46Z"),
    ("steel", "M134 14H114L108 44 114 74H134Z"),
];

/// A whole hammer, its handle lying, its face down.
pub const TOOL: Lines = &[
    ("wood", "M10 41H138V47H10Z"),
    ("steel", "M136 14H158V74H136Z"),
];

/// A piece of bar.
pub const BAR: Lines = &[("steel", "M24 28H156V60H24Z")];

/// How often numbers come about, those about the middle the oftenest.
pub const BELL: Lines = &[
    ("steel", "M8 72C58 72 70 10 90 10C110 10 122 72 172 72Z"),
    ("axis", "M90 4V84"),
];

/// The two axes of a plot.
pub const PLOT: Lines = &[("hidden", "M24 8V74H172")];

/// A bar as it is cold.
pub const COLD: Lines = &[("steel", "M18 32H148V56H18Z")];

/// A head as it is drawn.
pub const DRAWN: Lines = &[(
    "steel",
    "M56 36H72C74 34 78 32 82 32H98C102 32 106 34 108 36H124V52H108C106 54 102 56 98 56H82C78 56 74 54 72 52H56Z",
)];
