//! The handle, as a link carries it.

use super::super::CUSTOM_WOOD;
use super::super::grid::Scale;
use super::super::pack::{Coder, Fault};
use super::super::round::usual_handle;
use super::{UNREAD, length, one_of, plain};
use crate::bar::Limit;
use crate::design::Design;
use crate::handle::{
    CROSS_LENGTH_MM, CROSS_THICK_MM, CROSS_WIDTH_MM, CRUSH_MM, CrossWedge, KERF_DEPTH_MM,
    KERF_WIDTH_MM, Kerf, LENGTH_MM, MOST_STATIONS, PROUD_MM, STATION_MM, Shoulder, Species,
    Station, WEDGE_LENGTH_MM, WEDGE_THICK_MM, Wedge, Wood,
};
use crate::units::Length;

/// Weights, of 256, of the usual handle and of another.
const USUAL: [(u64, u64); 2] = [(240, 1), (16, 1)];

/// Walks the handle of a design whose sizes are there.
pub(super) fn handle(coder: &mut impl Coder, design: &mut Design) -> Result<(), Fault> {
    let usual = design.usual_handle();
    let (kind, _) = coder.weighted((usize::from(design.handle != usual), 0), &USUAL)?;
    if kind == 0 {
        design.handle = usual;
        return Ok(());
    }
    size(coder, LENGTH_MM, &mut design.handle.length)?;
    // Whether there is a usual one of this length depends on the head alone, so that writer and reader agree.
    if let Some(usual) = usual_handle(design)
        && coder.flag(design.handle == usual)?
    {
        design.handle = usual;
        return Ok(());
    }
    let handle = &mut design.handle;
    wood(coder, &mut handle.wood)?;
    plain(coder, Scale::moistures(), &mut handle.moisture_percent)?;
    let places = Limit {
        least: 0.0,
        most: LENGTH_MM.most,
    };
    size(coder, places, &mut handle.grip)?;
    one_of(
        coder,
        &[Shoulder::FillsMouth, Shoulder::None],
        &mut handle.shoulder,
    )?;
    let flush = coder.flag(handle.proud == UNREAD)?;
    if flush {
        handle.proud = UNREAD;
    } else {
        size(coder, PROUD_MM, &mut handle.proud)?;
    }
    let count = coder.choice(handle.stations.len() as u64, MOST_STATIONS as u64 + 1)?;
    let unread = Station {
        at: UNREAD,
        depth: UNREAD,
        width: UNREAD,
    };
    handle.stations.resize(count as usize, unread);
    for station in &mut handle.stations {
        size(coder, places, &mut station.at)?;
        size(coder, STATION_MM, &mut station.depth)?;
        size(coder, STATION_MM, &mut station.width)?;
    }
    kerf(coder, &mut handle.kerf)?;
    wedge(coder, &mut handle.wedge)?;
    cross_wedge(coder, &mut handle.cross_wedge)
}

fn size(coder: &mut impl Coder, limit: Limit, size: &mut Length) -> Result<(), Fault> {
    length(coder, Scale::lengths(limit.least, limit.most), size)
}

fn wood(coder: &mut impl Coder, wood: &mut Wood) -> Result<(), Fault> {
    let own = Species::ALL.len();
    let code = match wood {
        Wood::Species(species) => Species::ALL.iter().position(|one| one == species),
        Wood::Own { .. } => None,
    };
    let code = coder.choice(code.unwrap_or(own) as u64, own as u64 + 1)?;
    if let Some(species) = Species::ALL.get(code as usize) {
        *wood = Wood::Species(*species);
        return Ok(());
    }
    let mut gravity = match wood {
        Wood::Own {
            specific_gravity, ..
        } => *specific_gravity,
        Wood::Species(_) => 0.0,
    };
    plain(coder, Scale::gravities(), &mut gravity)?;
    *wood = Wood::Own {
        name: CUSTOM_WOOD.to_owned(),
        specific_gravity: gravity,
    };
    Ok(())
}

fn kerf(coder: &mut impl Coder, kerf: &mut Option<Kerf>) -> Result<(), Fault> {
    let unread = Kerf {
        depth: UNREAD,
        width: UNREAD,
    };
    *kerf = coder.flag(kerf.is_some())?.then(|| kerf.unwrap_or(unread));
    if let Some(kerf) = kerf {
        size(coder, KERF_DEPTH_MM, &mut kerf.depth)?;
        size(coder, KERF_WIDTH_MM, &mut kerf.width)?;
    }
    Ok(())
}

fn wedge(coder: &mut impl Coder, wedge: &mut Option<Wedge>) -> Result<(), Fault> {
    let unread = Wedge {
        wood: Wood::Species(Species::WhiteOak),
        length: UNREAD,
        thick: None,
        crush: UNREAD,
    };
    let there = coder.flag(wedge.is_some())?;
    *wedge = there.then(|| wedge.take().unwrap_or(unread));
    if let Some(wedge) = wedge {
        wood(coder, &mut wedge.wood)?;
        size(coder, WEDGE_LENGTH_MM, &mut wedge.length)?;
        let stated = coder.flag(wedge.thick.is_some())?;
        wedge.thick = stated.then(|| wedge.thick.unwrap_or(UNREAD));
        if let Some(thick) = &mut wedge.thick {
            size(coder, WEDGE_THICK_MM, thick)?;
        }
        size(coder, CRUSH_MM, &mut wedge.crush)?;
    }
    Ok(())
}

fn cross_wedge(coder: &mut impl Coder, cross: &mut Option<CrossWedge>) -> Result<(), Fault> {
    let unread = CrossWedge {
        length: UNREAD,
        thick: UNREAD,
        width: UNREAD,
    };
    *cross = coder
        .flag(cross.is_some())?
        .then(|| cross.unwrap_or(unread));
    if let Some(cross) = cross {
        size(coder, CROSS_LENGTH_MM, &mut cross.length)?;
        size(coder, CROSS_THICK_MM, &mut cross.thick)?;
        size(coder, CROSS_WIDTH_MM, &mut cross.width)?;
    }
    Ok(())
}
