//! The balance: the head on its handle, and the masses on either side of the eye.

use leptos::prelude::*;

use super::super::fetched::Picture;
use super::super::holding::on;
use super::super::picture::Shown;
use super::super::quantity::Number;
use super::super::state::Workspace;
use super::super::terms::{Term, Words};
use super::super::words;
use super::weight::HoldState;
use headwright::design::Quantity;
use headwright::units::show_mass;

/// "held", "problem" or nothing: how the balance stands.
pub fn standing(workspace: Workspace) -> &'static str {
    let holding = workspace.holdings.with(|all| on(all, Quantity::Balance));
    match holding {
        Some(holding) if holding.miss == 0.0 => "held",
        Some(_) => "problem",
        None => "",
    }
}

/// Balance in the margin.
#[component]
pub fn Balance() -> impl IntoView {
    let workspace = Workspace::here();
    let weighed = workspace.weighed;
    let system = workspace.system;
    let behind = workspace.behind();
    let shown = Shown {
        solid: behind.sound.into(),
        properties: behind.properties.into(),
        standing: Signal::derive(move || standing(behind)),
        label: Signal::derive(move || label(behind)),
        theme: workspace.theme.into(),
    };
    view! {
        <section class="balance" aria-labelledby="balance">
            <h2 id="balance">"balance"</h2>
            <HoldState quantity=Quantity::Balance />
            <Picture shown=shown />
            <p class="where">
                <BalanceNumber />
                <span>
                    {move || {
                        let (balance, angle) = weighed.with(|w| (w.balance, w.hang_angle));
                        tipped(words::balance(balance, system.get()).1, angle)
                    }}
                </span>
            </p>
            <p class="sides">
                <span>
                    {move || {
                        format!("{} in front of the eye", show_mass(weighed.with(|w| w.front_mass), system.get()))
                    }}
                </span>
                <span>
                    {move || format!("{} behind", show_mass(weighed.with(|w| w.back_mass), system.get()))}
                </span>
            </p>
            <Words id="balance-words" terms=&[Term::Balance, Term::HangAngle] />
        </section>
    }
}

/// How far out the balance is, its unit smaller than its number.
#[component]
pub fn BalanceNumber() -> impl IntoView {
    let workspace = Workspace::here();
    let text = Memo::new(move |_| {
        let balance = workspace.weighed.with(|w| w.balance);
        words::balance(balance, workspace.system.get()).0
    });
    let part = move |unit: bool| {
        text.with(|text| {
            let (number, word) = text.rsplit_once(' ').unwrap_or((text, ""));
            if unit { word } else { number }.to_owned()
        })
    };
    view! { <strong><Number text=Signal::derive(move || part(false)) /> " " {move || part(true)}</strong> }
}

/// What the picture shows, in words.
fn label(workspace: Workspace) -> String {
    let system = workspace.system.get();
    workspace.properties.with(|p| {
        let (balance, place) = words::balance(p.balance(), system);
        let tips = tipped(place, p.hang_angle);
        format!(
            "the head hanging from its handle: {}, balance {balance}, {tips}",
            show_mass(p.mass, system)
        )
    })
}

/// Where the head tips, in words.
fn tipped(place: &str, angle: f64) -> String {
    let degrees = (angle.abs().to_degrees() * 10.0).round() / 10.0;
    if degrees == 0.0 {
        "hangs level".to_owned()
    } else {
        format!("{place}, tips {degrees:.1}°")
    }
}
