//! What steers the wheel: track rod and rack.

use super::guide::{read_rod, write_rod};
use crate::link::parameter::Parameter;
use crate::link::reader::Reader;
use crate::link::topic::Topic;
use crate::link::words::{last, word};
use crate::link::writer::{Writer, numbers};
use kernel::field::{self, RACK};
use kernel::{LIMIT, Layout, Mount, Rack};

/// Track rod: inner x y z, outer x y z.
const TRACK_ROD: Parameter = Parameter::needed("tr");

/// Rack travel, stroke per turn, `subframe` or `body`; or `none`.
const GEAR: Parameter = Parameter::needed("gear");

/// Both.
pub const TOPIC: Topic<Layout> = Topic::new(write, read);

fn write(layout: &Layout, link: &mut Writer) {
    write_rod(TRACK_ROD, &layout.track_rod, link);
    let rack = |rack: &Rack| format!("{}_{}", numbers(&field::values(rack, &RACK)), word(Mount::ALL, rack.mount));
    link.put(GEAR, layout.rack.as_ref().map_or("none".into(), rack));
}

fn read(link: &mut Reader, layout: &mut Layout) {
    layout.track_rod = read_rod(link, TRACK_ROD, layout.track_rod);
    let Some(text) = link.take(GEAR) else { return };
    if text == "none" {
        layout.rack = None;
        return;
    }
    let Some((numbers, mount)) = last(Mount::ALL, &text) else {
        return link.wrong(GEAR, &text, "none, or travel_perturn_ and subframe or body");
    };
    if let Some([travel, per_turn]) = link.parse(GEAR, numbers, LIMIT) {
        layout.rack = Some(Rack { travel, per_turn, mount });
    }
}
