//! What each word means.

use super::{Key, Term};

/// What `term` means.
pub fn said(term: Term) -> &'static str {
    match term.key {
        Key::Weight => {
            "What the head weighs with its eye open, without the handle: its volume times the density of its steel."
        }
        Key::Balance => {
            "How far the balance point of the head lies in front of the handle’s axis or behind it. At 0 the head hangs level on its handle."
        }
        Key::HangAngle => {
            "How far the head tips when it hangs on a pin through the handle’s axis, 40 mm above the middle of the eye."
        }
        Key::Hold => {
            "A target that the head is to keep, such as a weight: when you change one size, the free sizes move until it is met again."
        }
        Key::Held => {
            "A hold that is met: the head has what you asked for, within its plus or minus."
        }
        Key::Tolerance => {
            "How far off a held value may be and still count as met. Left empty, it is finer than any scale or rule in a shop."
        }
        Key::OutOfReach => {
            "No sound head inside the limits keeps what is held. The nearest one is shown, and what stands in the way."
        }
        Key::Free => "A size that may move between its two limits to keep what is held.",
        Key::Locked => "A size that stays as you set it, whatever is held.",
        Key::Fit => {
            "One search for the sizes nearest to yours, in steps of each size, that keep everything that is held."
        }
        Key::InHand => {
            "The size that you are changing: it stays where you put it while the free ones follow."
        }
        Key::Alike => {
            "A size of the back that has the value of the same size of the front: change either, and both change."
        }
        Key::Rule => {
            "The smallest division that you measure with, such as 1 mm or 1/16 in: sizes step by it, and the cut is rounded up to it."
        }
        Key::ForgedWithin => {
            "How closely you forge to a size. From it follows how far the finished weight will spread from head to head."
        }
        Key::Reaches => {
            "Both reaches, each from the handle’s axis to the farthest point of its end: the front’s divided by the back’s."
        }
        Key::Inertia => {
            "How firmly the head stays put when something turns it about the handle: each bit of steel counts by the square of its distance from the handle’s axis."
        }
        Key::LeastWall => {
            "The thinnest place of the steel beside the eye, measured across the head. It is where a cheek would crack."
        }
        Key::Principal => {
            "How hard the head is to turn about three lines through its centroid, square to each other: about one of them least, about another most."
        }
        Key::Centroid => "The point in which the head would balance whichever way it is turned.",
        Key::EyeSteel => {
            "What the steel would weigh that the eye leaves out; most of it is pushed aside by punch and drifts, not lost."
        }
        Key::OutOfSquare => {
            "With a cocked eye the handle leans: this is how far the face is from standing square to it."
        }
        Key::Cheeks => {
            "The two sides of the head beside the eye. The block with the eye is called after them."
        }
        Key::Swell => {
            "Cheeks that stand out farther beside the handle than at the ends of the block, so that steel is left beside the eye."
        }
        Key::Lug => {
            "Steel that stands up above the eye or down below it, so that more of the handle is held."
        }
        Key::Eye => "The hole through the head that the handle sits in.",
        Key::Mouth => {
            "Each of the two openings of the eye: the wedge is driven in the upper one, the handle comes in at the lower one."
        }
        Key::Waist => {
            "The narrowest level of the eye. Above it the wedge spreads the wood, which holds the head against coming off."
        }
        Key::Wall => {
            "How the eye runs from its waist to its mouths: in straight lines with a ridge at the waist, or in arcs that are level there."
        }
        Key::Cock => {
            "An eye that leans, along the head or across it, so that the handle does not stand square to the head."
        }
        Key::Neck => "Where the head draws in between the cheeks and what its end is worked into.",
        Key::Run => {
            "How the head goes over from one section to the next: in straight lines, or in an S that is level at both."
        }
        Key::Corners => {
            "How the four corners of a section are worked: square, cut off straight, as an octagon, or rounded."
        }
        Key::Face => "The end that strikes flat or nearly flat.",
        Key::Land => "The straight run behind a face, before the head draws in.",
        Key::Crown => {
            "The doming of a face: it is a part of a ball, so that its middle strikes first and its edge does not mark the work."
        }
        Key::Edge => {
            "How the rim of a face is broken, round or as a chamfer, so that it is less likely to chip or to mark the work."
        }
        Key::Drop => "An end that falls from the block outwards, as the swing comes down.",
        Key::Ball => {
            "An end forged and ground to a part of a ball, to spread rivets and to sink sheet."
        }
        Key::Pein => {
            "An end worked to a rounded edge. It moves the steel square to that edge: across the handle, along it, or between."
        }
        Key::Nose => {
            "The rounding of a pein’s edge: a small one bites deep, a large one leaves fewer marks."
        }
        Key::Rocker => {
            "An edge that is curved along its length, so that its middle strikes first and its ends do not dig in."
        }
        Key::Hollow => {
            "Slopes of a pein that are hollowed between root and edge, to take weight out of it."
        }
        Key::Density => {
            "What a cubic centimetre of the steel weighs. It comes with the steel that is chosen on the heat sheet."
        }
        Key::Gravity => {
            "How heavy the wood is beside water: its dry weight over the weight of water of its volume at 12 % moisture."
        }
        Key::Moisture => {
            "Water in the wood as a part of its dry weight. Wood that dries shrinks in the eye and comes loose."
        }
        Key::Butt => "The end of the handle farthest from the head.",
        Key::Grip => "Where the hand holds. Swing and blow are reckoned about its middle.",
        Key::Oval => {
            "A section of the handle with its depth along the head and its width across it; between two ovals it goes over evenly."
        }
        Key::Tongue => "The part of the handle that is inside the eye.",
        Key::Shoulder => {
            "Where the handle below the head is thicker than its tongue; it can fill the lower mouth, so that the head cannot slide down."
        }
        Key::Kerf => "The saw cut in the tongue that the wedge is driven into.",
        Key::Wedge => {
            "What is driven into the kerf: it spreads the tongue above the waist until it fills the upper mouth."
        }
        Key::Crush => {
            "By how much the wedged wood would be wider than the eye: the wood gives way by that much and grips."
        }
        Key::CrossWedge => {
            "A second wedge, of steel, driven across the first to spread the tongue the other way."
        }
        Key::BalancePoint => "Where the whole tool, head and handle, lies level on an edge.",
        Key::GripInertia => "How hard the whole tool is to swing from the grip, and to stop.",
        Key::Billet => {
            "The piece cut from the bar, with everything that will be lost on the way still on it."
        }
        Key::Reserve => {
            "How many heads of a hundred should come out at their weight or over: the more, the longer the cut, and the more is ground off."
        }
        Key::Spread => {
            "How much a loss differs from head to head, as one standard deviation: two in three lie within it."
        }
        Key::Slug => {
            "The piece that the punch drives out of the eye; it is the only steel that leaves there."
        }
        Key::Web => {
            "What is left between the two punchings, one from each side, when the slug comes out."
        }
        Key::Scale => {
            "The skin of oxide that grows on hot steel and falls off in every heat: steel that is gone."
        }
        Key::Dressing => {
            "Filing and grinding that make the forged head clean, besides what is ground off the faces."
        }
        Key::Need => {
            "The area of bar that each place along the head needs: its own section with its share of the losses. The area under the line is the billet."
        }
        Key::Draw => "To make the bar longer and thinner.",
        Key::Upset => "To make the bar shorter and thicker, by blows on its end.",
        Key::Fuller => {
            "To draw the bar in between two thicker places, with a rounded tool that pushes the steel to both sides."
        }
        Key::Heats => {
            "How often the piece goes back into the fire: each time it grows scale again."
        }
        Key::Trimming => {
            "What is sawn or ground off the ends because they are ragged after forging."
        }
        Key::Marks => {
            "Punched dots on the billet that show in the fire where eye and cheeks belong; chalk burns off."
        }
        Key::Slit => {
            "How the eye begins: a slit is cut with a chisel and loses next to nothing, a slot is punched and loses its slug."
        }
        Key::Drift => {
            "A tapered bar driven through the opening to make it larger; the last one has the shape of the eye."
        }
        Key::Bolster => "The block with a hole that the bar lies on when it is punched through.",
        Key::Room => {
            "How much wider the hole under the bar is than the punch, on each side, so that the slug drops through."
        }
        Key::HotSize => {
            "What a size measures at forging heat: steel grows when it is hot and shrinks back to the cold size."
        }
        Key::SawKerf => "What the saw turns to dust in every cut.",
        Key::EndWaste => {
            "What is left at the end of a bar that cannot be used, because the saw has to hold it."
        }
        Key::Normalize => {
            "To heat the forged head through and let it cool in still air, so that its grain gets fine and even before it is hardened."
        }
        Key::Harden => "To heat the steel until it has turned to austenite, and then to quench it.",
        Key::Quench => "To cool the hot steel fast, in water, brine or oil, so that it gets hard.",
        Key::Temper => {
            "To warm the hardened steel and hold it there: it loses some hardness and much of its brittleness."
        }
        Key::TemperColour => {
            "The colour that bright steel takes in air at a tempering heat, from straw to blue. It tells the heat only roughly."
        }
        Key::Ac1 => {
            "The heat at which steel that is being heated begins to turn to austenite. A temper must stay below it."
        }
        Key::Ac3 => {
            "The heat at which all of it has turned to austenite. Steels that it is told for are hardened somewhat above it."
        }
        Key::Ms => {
            "The heat at which martensite begins to form in the quench: from here down the steel hardens."
        }
        Key::Martensite => {
            "The hard state that a fast quench leaves; how hard it is hangs on the carbon in it."
        }
        Key::Brittle => {
            "Tempering heats that leave some steels brittle though they are softer. It is best passed by, below or above."
        }
        Key::Soak => "How long the steel stays at a heat once it is warm through.",
        Key::Agitation => {
            "How the head is moved in the bath: the more, the faster it cools, because steam does not cling to it."
        }
        Key::Analysis => {
            "What the steel is made of, from the mill’s certificate of your bar. Without it the whole range of the grade is reckoned with."
        }
        Key::Hrc => {
            "Hardness on the Rockwell C scale: a diamond cone is pressed in, and a higher number is harder."
        }
        Key::Skin => {
            "Hardness at the surface of the struck end and in the middle of its section: thick steel cools slower inside, and is softer there."
        }
        Key::Thickest => {
            "The diameter of the largest part of the head as the quench sees it: it tells how long a soak has to be."
        }
        Key::EndQuench => {
            "A test bar that is hot and quenched with water at one end only: how its hardness falls along it tells how deep the steel hardens."
        }
        Key::IdealDiameter => {
            "The thickest round that would still be half martensite at its centre in a quench that cools its skin at once: the larger, the deeper the steel hardens."
        }
        Key::FaceOffset => "From the handle’s axis to the middle of the face: the reach of a face.",
        Key::Twist => {
            "How fast the head turns in the hand when a blow lands beside the middle of the face: more with a large offset of the blow, less with a large inertia."
        }
        Key::EffectiveMass => {
            "The mass of a free block that would give the work the same blow: not all of a tool that turns stands behind its face."
        }
        Key::Percussion => {
            "The place along the tool where a blow does not jerk the grip: nearer to the hand, or farther out, the hand feels it."
        }
        Key::Sting => "How hard the handle jerks in the grip when the blow lands.",
        Key::Momentum => {
            "Momentum is mass times speed along the blow; impulse is how much of it the work takes."
        }
        Key::Tilt => {
            "How far the handle may be off level at the blow so that still the crown lands, and not the edge."
        }
        Key::Print => {
            "The patch of a crowned face that touches soft work when it sinks in so deep."
        }
        Key::TurningMoment => {
            "How strongly the head wants to turn in the hand when the handle is held level and the head lies on its side: weight times balance."
        }
        Key::Stature => {
            "How tall the smith is; shoulder and knuckles, measured standing with hanging arms, say more than stature does."
        }
        Key::StandOff => "How far from the ankles the blow lands when the back is straight.",
        Key::Build => {
            "One head from the bar to the hammer: its design as it was when you began, your steps, and all that you press, weigh and measure at them."
        }
        Key::HeatCounted => {
            "Press it each time the piece has gone back into the fire at this step. Time does not need it: it is how often scale has grown."
        }
        Key::Weighing => {
            "What the scale shows when a step is done. What is missing at the next weighing went at the steps in between."
        }
        Key::TypedMinutes => {
            "What a step took in all until then, where the clock was forgotten. They stand for what was pressed before, and what is pressed afterwards adds."
        }
        Key::LeftOut => {
            "A weighing that you said went wrong: it stands in the log and nothing is learned from it."
        }
        Key::AsForged => {
            "The head as it lies before you: measured where you held the caliper to it, as designed everywhere else."
        }
        Key::HotReading => {
            "Hot steel is longer than cold, at a forging heat by one to two parts in a hundred: with its heat beside it, a hot reading is brought to the cold size."
        }
        Key::OneDeviation => {
            "One standard deviation either way: about two cases in three lie within it, and nearly all within three times as much."
        }
        Key::TakesLoss => {
            "A step that takes lines of the bar’s ledger, such as scale or the slug: from weighings before and after it your own losses are learned."
        }
        Key::ToWeight => {
            "A step that grinds off what is over the target. That is no loss: a shorter cut would have had less of it."
        }
        Key::OnHandle => {
            "From this step on the scale shows the whole tool, and no steel is reckoned from it."
        }
        Key::Target => "The minutes that you want a step to take; where it is over, it says so.",
        Key::InProportion => {
            "All that was not measured grows and shrinks together, as a drawing does that is copied larger or smaller."
        }
        Key::Explains => {
            "A size that alone would make the computed weight the weighed one, were it so much larger or smaller than it is taken for."
        }
        Key::OffBy => {
            "How far a reading may lie from the truth, either way: of a caliper by its jaws and your hand, of a scale by its last figure."
        }
        Key::LearningCurve => {
            "Work that is done again goes faster, first much and then less: each doubling of the number leaves the same part of the time (Wright, 1936)."
        }
        Key::PerDoubling => {
            "What is left of the minutes when twice as many have been made: at 80 % the 2nd takes 80 % of the 1st, and the 4th 64 %."
        }
        Key::NextBuild => {
            "The stretch in which nine of ten next builds would lie, if they go as those before: the fewer there are, the longer it is."
        }
        Key::PublishedDefault => {
            "What is usual in print for a loss. It is where a smith begins who has weighed nothing, and counts like two weighed heads."
        }
        Key::BetweenTwo => {
            "An estimate between the published default and what your scale showed: with each head that you weigh it lies nearer to your own."
        }
        Key::BuildsBehind => {
            "How many of your builds a number rests on. One or two say little, ten say much."
        }
        Key::NineInTen => {
            "The range in which nine of ten of your next heads should lose: it counts how much heads differ and how little is known yet."
        }
        Key::FarOut => {
            "A loss so far from what was expected that it happens once in a hundred heads or less: a misread scale, or something new. It waits for your word."
        }
        Key::Wage => {
            "What is left for an hour of your work when all else is paid, before taxes: you set it, and the price follows, or the other way round."
        }
        Key::Overhead => {
            "What the shop costs by the hour whatever is made in it: rent, power, tools that wear, insurance."
        }
        Key::Consumables => "What is used up on a head: belts, flux, oil, finish.",
        Key::Spoiled => {
            "Of a hundred that are begun so many come to nothing. The good ones pay their steel and their hours."
        }
        Key::Fees => "What a market place or a card company takes, as a part of the price.",
        Key::DrawingOut => {
            "To make a piece longer and thinner, blow beside blow; a round face or a pein does it fastest."
        }
        Key::Planishing => "To smooth a surface with many light blows that lie one over another.",
        Key::Striker => "Who swings the sledge where the smith’s hand hammer points.",
    }
}
