//! The tool and its blow: what head and handle do together, and what is asked of the blow.

use leptos::prelude::*;

use super::super::pick::Pick;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::super::workshop::{Kept, Workshop};
use super::asked::{Blow, Known};
use super::fields::{self, ENERGY, Part, SPEED, TORQUE, field};
use super::lines::table;
use super::present::{Present, refused, sentences};
use headwright::design::Side;
use headwright::swing::{Asked, OffCentre, Patch, SwingError};
use headwright::units::{Angle, System, show_angle};

mod face;
mod picture;

/// Pictures, fields and tables.
#[component]
pub fn ToolAndBlow() -> impl IntoView {
    let system = Workspace::here().system;
    let present = Present::here();
    let kept = Workshop::here().blow;
    let of_tool = move || {
        let system = system.get();
        let side = kept.value.with(|blow| blow.side);
        present.hammer.with(|hammer| match hammer {
            Ok(hammer) => view! {
                {picture::figure(hammer, side, system)}
                {table("the tool", hammer.tool.lines(system))}
            }
            .into_any(),
            Err(sentences) => refused(sentences.clone()).into_any(),
        })
    };
    let of_blow = move || {
        let system = system.get();
        let blow = kept.value.get();
        present.hammer.with(|hammer| {
            let tool = &hammer.as_ref().ok()?.tool;
            let swing = match tool.swing(blow.side, blow.drive()) {
                Ok(swing) => table("the swing", swing.lines(system)).into_any(),
                Err(errors) => refused(sentences(&errors, |e| e.sentence(system))).into_any(),
            };
            Some(view! {
                {table("a blow on the middle", tool.end(blow.side).lines(system))}
                {swing}
            })
        })
    };
    let beside = move || {
        let system = system.get();
        let blow = kept.value.get();
        present.hammer.with(|hammer| {
            let hammer = hammer.as_ref().ok()?;
            let end = hammer.tool.end(blow.side);
            let beside = hammer.tool.off_centre(blow.side, blow.off());
            let patch = end.striker.patch(blow.depth.in_mm());
            let words = |said: Result<String, Vec<SwingError>>| match said {
                Ok(sentence) => view! { <p>{sentence}</p> }.into_any(),
                Err(errors) => refused(sentences(&errors, |e| e.sentence(system))).into_any(),
            };
            let print = patch.as_ref().ok().copied();
            Some(view! {
                {face::figure(&hammer.solid, &end.striker, blow.off(), print)}
                <div>
                {words(beside.map(|beside: OffCentre| format!("{} {}", beside.meaning(system), shares(&beside))))}
                {words(patch.map(|patch: Patch| patch.meaning(system)))}
                </div>
            })
        })
    };
    view! {
        <section class="tool-and-blow workshop" aria-labelledby="tool-and-blow">
            <h2 id="tool-and-blow">"the tool and its blow"</h2>
            <Words
                id="tool-words"
                terms=&[Term::EffectiveMass, Term::Percussion, Term::Sting, Term::Momentum, Term::Tilt, Term::Print]
            />
            <div class="tool-parts">
                <div>{of_tool}</div>
                <div>
                    <Fields kept=kept />
                    {of_blow}
                </div>
                <div>
                    <h3 class="beside-name">"beside the middle"</h3>
                    <OffFields kept=kept />
                    <div class="beside">{beside}</div>
                </div>
            </div>
        </section>
    }
}

/// How the energy of a blow is shared out.
fn shares(beside: &OffCentre) -> String {
    let percent = |share: f64| format!("{:.0} %", 100.0 * share);
    let shares = beside.shares;
    format!(
        "Of the blow’s energy {} moves the tool straight, {} turns it in the swing, {} twists it.",
        percent(shares.straight),
        percent(shares.swing),
        percent(shares.twist)
    )
}

/// What is wrong with a number that was asked for.
fn admitted(asked: Asked, value: f64, system: System) -> Result<(), String> {
    if asked.limit().admits(value) {
        Ok(())
    } else {
        Err(SwingError::OutOfBounds { asked, value }.sentence(system))
    }
}

/// Whether every number of the swing is in its bounds.
fn check(blow: &Blow, system: System) -> Result<(), String> {
    match blow.known {
        Known::Speed => admitted(Asked::Speed, blow.speed, system),
        Known::Energy => admitted(Asked::Energy, blow.energy, system),
        Known::Torque => admitted(Asked::Torque, blow.torque, system)
            .and_then(|()| admitted(Asked::Angle, blow.angle, system)),
    }
}

/// The end that strikes, and how hard.
#[component]
fn Fields(
    /// The blow.
    kept: Kept<Blow>,
) -> impl IntoView {
    let workspace = Workspace::here();
    let side = Signal::derive(move || {
        let side = kept.value.with(|blow| blow.side);
        workspace
            .design
            .with(|design| words::tip_word(&design.end(side).tip))
    });
    let known = Memo::new(move |_| kept.value.with(|blow| blow.known));
    let present = Present::here();
    // Too fast or too slow for this tool is refused beside the field too.
    let of_tool = move |blow: &Blow, system: System| {
        check(blow, system)?;
        present.hammer.with_untracked(|hammer| match hammer {
            Ok(hammer) => match hammer.tool.swing(blow.side, blow.drive()) {
                Ok(_) => Ok(()),
                Err(errors) => Err(sentences(&errors, |e| e.sentence(system)).join(" ")),
            },
            Err(_) => Ok(()),
        })
    };
    let of_drive = move || match known.get() {
        Known::Speed => field(kept, SPEED_FIELD, of_tool).into_any(),
        Known::Energy => field(kept, ENERGY_FIELD, of_tool).into_any(),
        Known::Torque => view! {
            {field(kept, TORQUE_FIELD, of_tool)}
            {field(kept, ANGLE_FIELD, of_tool)}
        }
        .into_any(),
    };
    view! {
        <div class="rows">
            <Pick
                label="struck with"
                of="blow"
                options=ENDS.to_vec()
                chosen=Signal::derive(move || ENDS[kept.value.with(|blow| blow.side) as usize])
                choose=move |word: String| {
                    kept.apply(|blow| blow.side = if word == ENDS[0] { Side::Front } else { Side::Back });
                }
            />
            <p class="soft small">{move || format!("The {} strikes.", side.get())}</p>
            <Pick
                label="known of the swing"
                of="blow"
                options=Known::ALL.map(Known::words).to_vec()
                chosen=Signal::derive(move || known.get().words())
                choose=move |word: String| {
                    if let Some(known) = Known::ALL.into_iter().find(|known| known.words() == word) {
                        kept.apply(|blow| blow.known = known);
                    }
                }
            />
            {of_drive}
        </div>
    }
}

/// The ends of the head.
const ENDS: [&str; 2] = ["the front", "the back"];

/// Where the blow lands, and how deep the work gives way.
#[component]
fn OffFields(
    /// The blow.
    kept: Kept<Blow>,
) -> impl IntoView {
    let present = Present::here();
    let on_face = move |blow: &Blow, system: System| {
        present.hammer.with_untracked(|hammer| match hammer {
            Ok(hammer) => hammer
                .tool
                .off_centre(blow.side, blow.off())
                .map(|_| ())
                .map_err(|errors| sentences(&errors, |e| e.sentence(system)).join(" ")),
            Err(_) => Ok(()),
        })
    };
    let deep = |blow: &Blow, system: System| admitted(Asked::Depth, blow.depth.in_mm(), system);
    view! {
        <div class="rows">
            {field(kept, ACROSS, on_face)}
            {field(kept, ALONG, on_face)}
            {field(kept, DEPTH, deep)}
        </div>
    }
}

const SPEED_FIELD: Part<Blow> = Part {
    id: "speed",
    label: "speed of the head",
    of: "blow",
    show: |blow, system| SPEED.show(blow.speed, system),
    unit: |system| SPEED.unit(system),
    put: |blow, text, system| {
        blow.speed = SPEED.read(text, system)?;
        Ok(())
    },
    placeholder: None,
};

const ENERGY_FIELD: Part<Blow> = Part {
    id: "energy",
    label: "energy of the swing",
    of: "blow",
    show: |blow, system| ENERGY.show(blow.energy, system),
    unit: |system| ENERGY.unit(system),
    put: |blow, text, system| {
        blow.energy = ENERGY.read(text, system)?;
        Ok(())
    },
    placeholder: None,
};

const TORQUE_FIELD: Part<Blow> = Part {
    id: "torque",
    label: "torque about the grip",
    of: "blow",
    show: |blow, system| TORQUE.show(blow.torque, system),
    unit: |system| TORQUE.unit(system),
    put: |blow, text, system| {
        blow.torque = TORQUE.read(text, system)?;
        Ok(())
    },
    placeholder: None,
};

const ANGLE_FIELD: Part<Blow> = Part {
    id: "angle",
    label: "through an angle",
    of: "blow",
    show: |blow, _| show_angle(Angle::degrees(blow.angle)),
    unit: fields::degrees,
    put: |blow, text, _| {
        blow.angle = fields::read_degrees(text)?;
        Ok(())
    },
    placeholder: None,
};

const ACROSS: Part<Blow> = Part {
    id: "across",
    label: "off the middle, across",
    of: "blow",
    show: |blow, system| fields::show(blow.across, system),
    unit: fields::mm,
    put: |blow, text, system| {
        blow.across = fields::read(text, system)?;
        Ok(())
    },
    placeholder: None,
};

const ALONG: Part<Blow> = Part {
    id: "along",
    label: "off the middle, along",
    of: "blow",
    show: |blow, system| fields::show(blow.along, system),
    unit: fields::mm,
    put: |blow, text, system| {
        blow.along = fields::read(text, system)?;
        Ok(())
    },
    placeholder: None,
};

const DEPTH: Part<Blow> = Part {
    id: "depth",
    label: "depth in soft work",
    of: "blow",
    show: |blow, system| fields::show(blow.depth, system),
    unit: fields::mm,
    put: |blow, text, system| {
        blow.depth = fields::read(text, system)?;
        Ok(())
    },
    placeholder: None,
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_numbers_of_the_chosen_drive_are_checked() {
        let blow = Blow {
            known: Known::Energy,
            speed: 900.0,
            ..Blow::default()
        };
        assert!(check(&blow, System::Metric).is_ok());
        let fast = Blow {
            known: Known::Speed,
            ..blow
        };
        let sentence = check(&fast, System::Metric).expect_err("too fast");
        assert!(
            sentence.contains("900") && sentence.contains("40"),
            "{sentence}"
        );
    }
}
