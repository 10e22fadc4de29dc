//! Weight and balance in one line, stuck below the steps where there is no margin.

use leptos::prelude::*;

use super::hanging::Hanging;
use super::margin::{HoldState, standing};
use super::quantity::{MassNumber, Number};
use super::state::{Screen, Workspace};
use super::words;
use headwright::design::Quantity;

/// The strip; shown from the phone up to where the margin stands beside the sheet.
#[component]
pub fn Strip() -> impl IntoView {
    let workspace = Workspace::here();
    let properties = workspace.properties;
    let system = workspace.system;
    view! {
        <div class="strip" class:away=move || workspace.screen.get() != Screen::Head>
            <div class="strip-weight">
                <p class="big">
                    <MassNumber kg=Signal::derive(move || properties.with(|p| p.mass)) system=system />
                </p>
                <HoldState quantity=Quantity::Mass />
            </div>
            <div class="strip-balance">
                <p>
                    <strong>
                        {move || {
                            let (text, _) = words::balance(properties.with(|p| p.balance()), system.get());
                            let (number, unit) = text.rsplit_once(' ').unwrap_or((text.as_str(), ""));
                            view! { <Number text=number.to_owned() /> {format!(" {unit}")} }
                        }}
                    </strong>
                    <span class="soft">
                        {move || {
                            let balance = properties.with(|p| p.balance());
                            format!(" {}", words::balance(balance, system.get()).1)
                        }}
                    </span>
                </p>
                <HoldState quantity=Quantity::Balance short=true />
            </div>
            <Hanging
                solid=workspace.sound
                properties=properties
                standing=Signal::derive(move || standing(workspace))
            />
        </div>
    }
}
