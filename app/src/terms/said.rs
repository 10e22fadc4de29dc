//! What each word means.

use super::Term;

/// What `term` means.
pub fn said(term: Term) -> &'static str {
    match term {
        Term::Weight => {
            "What the head weighs with its eye open, without the handle: its volume times the density of its steel."
        }
        Term::Balance => {
            "How far the balance point of the head lies in front of the handle’s axis or behind it. At 0 the head hangs level on its handle."
        }
        Term::HangAngle => {
            "How far the head tips when it hangs on a pin through the handle’s axis, 40 mm above the middle of the eye."
        }
        Term::Hold => {
            "A target that the head is to keep, such as a weight: when you change one size, the free sizes move until it is met again."
        }
        Term::Held => {
            "A hold that is met: the head has what you asked for, within its plus or minus."
        }
        Term::Tolerance => {
            "How far off a held value may be and still count as met. Left empty, it is finer than any scale or rule in a shop."
        }
        Term::OutOfReach => {
            "No sound head inside the limits keeps what is held. The nearest one is shown, and what stands in the way."
        }
        Term::Free => "A size that may move between its two limits to keep what is held.",
        Term::Locked => "A size that stays as you set it, whatever is held.",
        Term::Fit => {
            "One search for the sizes nearest to yours, in steps of each size, that keep everything that is held."
        }
        Term::InHand => {
            "The size that you are changing: it stays where you put it while the free ones follow."
        }
        Term::Alike => {
            "A size of the back that has the value of the same size of the front: change either, and both change."
        }
        Term::Rule => {
            "The smallest division that you measure with, such as 1 mm or 1/16 in: sizes step by it, and the cut is rounded up to it."
        }
        Term::ForgedWithin => {
            "How closely you forge to a size. From it follows how far the finished weight will spread from head to head."
        }
        Term::Reaches => {
            "Both reaches, each from the handle’s axis to the farthest point of its end: the front’s divided by the back’s."
        }
        Term::Inertia => {
            "How firmly the head stays put when something turns it about the handle: each bit of steel counts by the square of its distance from the handle’s axis."
        }
        Term::LeastWall => {
            "The thinnest place of the steel beside the eye, measured across the head. It is where a cheek would crack."
        }
        Term::Principal => {
            "How hard the head is to turn about three lines through its centroid, square to each other: about one of them least, about another most."
        }
        Term::Centroid => "The point in which the head would balance whichever way it is turned.",
        Term::EyeSteel => {
            "What the steel would weigh that the eye leaves out; most of it is pushed aside by punch and drifts, not lost."
        }
        Term::OutOfSquare => {
            "With a cocked eye the handle leans: this is how far the face is from standing square to it."
        }
        Term::Cheeks => {
            "The two sides of the head beside the eye. The block with the eye is called after them."
        }
        Term::Swell => {
            "Cheeks that stand out farther beside the handle than at the ends of the block, so that steel is left beside the eye."
        }
        Term::Lug => {
            "Steel that stands up above the eye or down below it, so that more of the handle is held."
        }
        Term::Eye => "The hole through the head that the handle sits in.",
        Term::Mouth => {
            "Each of the two openings of the eye: the wedge is driven in the upper one, the handle comes in at the lower one."
        }
        Term::Waist => {
            "The narrowest level of the eye. Above it the wedge spreads the wood, which holds the head against coming off."
        }
        Term::Wall => {
            "How the eye runs from its waist to its mouths: in straight lines with a ridge at the waist, or in arcs that are level there."
        }
        Term::Cock => {
            "An eye that leans, along the head or across it, so that the handle does not stand square to the head."
        }
        Term::Neck => "Where the head draws in between the cheeks and what its end is worked into.",
        Term::Run => {
            "How the head goes over from one section to the next: in straight lines, or in an S that is level at both."
        }
        Term::Corners => {
            "How the four corners of a section are worked: square, cut off straight, as an octagon, or rounded."
        }
        Term::Face => "The end that strikes flat or nearly flat.",
        Term::Land => "The straight run behind a face, before the head draws in.",
        Term::Crown => {
            "The doming of a face: it is a part of a ball, so that its middle strikes first and its edge does not mark the work."
        }
        Term::Edge => {
            "How the rim of a face is broken, round or as a chamfer, so that it is less likely to chip or to mark the work."
        }
        Term::Drop => "An end that falls from the block outwards, as the swing comes down.",
        Term::Ball => {
            "An end forged and ground to a part of a ball, to spread rivets and to sink sheet."
        }
        Term::Pein => {
            "An end worked to a rounded edge. It moves the steel square to that edge: across the handle, along it, or between."
        }
        Term::Nose => {
            "The rounding of a pein’s edge: a small one bites deep, a large one leaves fewer marks."
        }
        Term::Rocker => {
            "An edge that is curved along its length, so that its middle strikes first and its ends do not dig in."
        }
        Term::Hollow => {
            "Slopes of a pein that are hollowed between root and edge, to take weight out of it."
        }
        Term::Density => {
            "What a cubic centimetre of the steel weighs. It comes with the steel that is chosen on the heat sheet."
        }
        Term::Gravity => {
            "How heavy the wood is beside water: its dry weight over the weight of water of its volume at 12 % moisture."
        }
        Term::Moisture => {
            "Water in the wood as a part of its dry weight. Wood that dries shrinks in the eye and comes loose."
        }
        Term::Butt => "The end of the handle farthest from the head.",
        Term::Grip => "Where the hand holds. Swing and blow are reckoned about its middle.",
        Term::Oval => {
            "A section of the handle with its depth along the head and its width across it; between two ovals it goes over evenly."
        }
        Term::Tongue => "The part of the handle that is inside the eye.",
        Term::Shoulder => {
            "Where the handle below the head is thicker than its tongue; it can fill the lower mouth, so that the head cannot slide down."
        }
        Term::Kerf => "The saw cut in the tongue that the wedge is driven into.",
        Term::Wedge => {
            "What is driven into the kerf: it spreads the tongue above the waist until it fills the upper mouth."
        }
        Term::Crush => {
            "By how much the wedged wood would be wider than the eye: the wood gives way by that much and grips."
        }
        Term::CrossWedge => {
            "A second wedge, of steel, driven across the first to spread the tongue the other way."
        }
        Term::BalancePoint => "Where the whole tool, head and handle, lies level on an edge.",
        Term::GripInertia => "How hard the whole tool is to swing from the grip, and to stop.",
        Term::Billet => {
            "The piece cut from the bar, with everything that will be lost on the way still on it."
        }
        Term::Reserve => {
            "How many heads of a hundred should come out at their weight or over: the more, the longer the cut, and the more is ground off."
        }
        Term::Spread => {
            "How much a loss differs from head to head, as one standard deviation: two in three lie within it."
        }
        Term::Slug => {
            "The piece that the punch drives out of the eye; it is the only steel that leaves there."
        }
        Term::Web => {
            "What is left between the two punchings, one from each side, when the slug comes out."
        }
        Term::Scale => {
            "The skin of oxide that grows on hot steel and falls off in every heat: steel that is gone."
        }
        Term::Dressing => {
            "Filing and grinding that make the forged head clean, besides what is ground off the faces."
        }
        Term::Need => {
            "The area of bar that each place along the head needs: its own section with its share of the losses. The area under the line is the billet."
        }
        Term::Draw => "To make the bar longer and thinner.",
        Term::Upset => "To make the bar shorter and thicker, by blows on its end.",
        Term::Fuller => {
            "To draw the bar in between two thicker places, with a rounded tool that pushes the steel to both sides."
        }
        Term::Heats => {
            "How often the piece goes back into the fire: each time it grows scale again."
        }
        Term::Trimming => {
            "What is sawn or ground off the ends because they are ragged after forging."
        }
        Term::Marks => {
            "Punched dots on the billet that show in the fire where eye and cheeks belong; chalk burns off."
        }
        Term::Slit => {
            "How the eye begins: a slit is cut with a chisel and loses next to nothing, a slot is punched and loses its slug."
        }
        Term::Drift => {
            "A tapered bar driven through the opening to make it larger; the last one has the shape of the eye."
        }
        Term::Bolster => "The block with a hole that the bar lies on when it is punched through.",
        Term::Room => {
            "How much wider the hole under the bar is than the punch, on each side, so that the slug drops through."
        }
        Term::HotSize => {
            "What a size measures at forging heat: steel grows when it is hot and shrinks back to the cold size."
        }
        Term::SawKerf => "What the saw turns to dust in every cut.",
        Term::EndWaste => {
            "What is left at the end of a bar that cannot be used, because the saw has to hold it."
        }
        Term::Normalize => {
            "To heat the forged head through and let it cool in still air, so that its grain gets fine and even before it is hardened."
        }
        Term::Harden => {
            "To heat the steel until it has turned to austenite, and then to quench it."
        }
        Term::Quench => "To cool the hot steel fast, in water, brine or oil, so that it gets hard.",
        Term::Temper => {
            "To warm the hardened steel and hold it there: it loses some hardness and much of its brittleness."
        }
        Term::TemperColour => {
            "The colour that bright steel takes in air at a tempering heat, from straw to blue. It tells the heat only roughly."
        }
        Term::Ac1 => {
            "The heat at which steel that is being heated begins to turn to austenite. A temper must stay below it."
        }
        Term::Ac3 => {
            "The heat at which all of it has turned to austenite. Steels that it is told for are hardened somewhat above it."
        }
        Term::Ms => {
            "The heat at which martensite begins to form in the quench: from here down the steel hardens."
        }
        Term::Martensite => {
            "The hard state that a fast quench leaves; how hard it is hangs on the carbon in it."
        }
        Term::Brittle => {
            "Tempering heats that leave some steels brittle though they are softer. It is best passed by, below or above."
        }
        Term::Soak => "How long the steel stays at a heat once it is warm through.",
        Term::Agitation => {
            "How the head is moved in the bath: the more, the faster it cools, because steam does not cling to it."
        }
        Term::Analysis => {
            "What the steel is made of, from the mill’s certificate of your bar. Without it the whole range of the grade is reckoned with."
        }
        Term::Hrc => {
            "Hardness on the Rockwell C scale: a diamond cone is pressed in, and a higher number is harder."
        }
        Term::Skin => {
            "Hardness at the surface of the struck end and in the middle of its section: thick steel cools slower inside, and is softer there."
        }
        Term::Thickest => {
            "The diameter of the largest part of the head as the quench sees it: it tells how long a soak has to be."
        }
        Term::EndQuench => {
            "A test bar that is hot and quenched with water at one end only: how its hardness falls along it tells how deep the steel hardens."
        }
        Term::IdealDiameter => {
            "The thickest round that would still be half martensite at its centre in a quench that cools its skin at once: the larger, the deeper the steel hardens."
        }
        Term::FaceOffset => {
            "From the handle’s axis to the middle of the face: the reach of a face."
        }
        Term::Twist => {
            "How fast the head turns in the hand when a blow lands beside the middle of the face: more with a large offset of the blow, less with a large inertia."
        }
        Term::EffectiveMass => {
            "The mass of a free block that would give the work the same blow: not all of a tool that turns stands behind its face."
        }
        Term::Percussion => {
            "The place along the tool where a blow does not jerk the grip: nearer to the hand, or farther out, the hand feels it."
        }
        Term::Sting => "How hard the handle jerks in the grip when the blow lands.",
        Term::Momentum => {
            "Momentum is mass times speed along the blow; impulse is how much of it the work takes."
        }
        Term::Tilt => {
            "How far the handle may be off level at the blow so that still the crown lands, and not the edge."
        }
        Term::Print => {
            "The patch of a crowned face that touches soft work when it sinks in so deep."
        }
        Term::TurningMoment => {
            "How strongly the head wants to turn in the hand when the handle is held level and the head lies on its side: weight times balance."
        }
        Term::Stature => {
            "How tall the smith is; shoulder and knuckles, measured standing with hanging arms, say more than stature does."
        }
        Term::StandOff => "How far from the ankles the blow lands when the back is straight.",
        Term::DrawingOut => {
            "To make a piece longer and thinner, blow beside blow; a round face or a pein does it fastest."
        }
        Term::Planishing => "To smooth a surface with many light blows that lie one over another.",
        Term::Striker => "Who swings the sledge where the smith’s hand hammer points.",
    }
}
