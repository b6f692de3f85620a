//! The spring in a link, and the rocker that moves it.

use crate::content::demos;
use crate::link::parameter::Parameter;
use crate::link::reader::{MOST, Reader};
use crate::link::topic::Topic;
use crate::link::words::choice;
use crate::link::writer::{Writer, numbers, points};
use kernel::field::{self, SPRING};
use kernel::{Layout, Rocker, Spring, SpringOn, Vec3};
use std::mem::discriminant;

/// What it stands on, rate, and, unless it takes the strut's own line, top x y z, foot x y z.
const KEY: Parameter = Parameter::needed("spring");

/// The spring.
pub const TOPIC: Topic<Layout> = Topic::new(write, read);

fn write(layout: &Layout, link: &mut Writer) {
    let spring = &layout.spring;
    let own_line = match (spring.top, spring.foot) {
        (Some(top), Some(foot)) => format!("_{}", points(&[top, foot])),
        _ => String::new(),
    };
    let rate = numbers(&field::values(spring, &SPRING));
    link.put(KEY, format!("{}_{rate}{own_line}", spring.on.name()));
}

fn read(link: &mut Reader, layout: &mut Layout) {
    layout.spring = stand_in(layout);
    let Some(text) = link.take(KEY) else { return };
    let (on, rest) = text.split_once('_').unwrap_or((&text, ""));
    let Some(on) = choice(SpringOn::ALL, on) else {
        return link.wrong(KEY, &text, "a part it is mounted on, its rate and its two ends");
    };
    let (rate, ends) = if on == SpringOn::Strut && !rest.contains('_') {
        let Some([rate]) = link.parse(KEY, rest, MOST) else { return };
        (rate, None)
    } else {
        let Some([rate, a, b, c, d, e, f]) = link.parse(KEY, rest, MOST) else { return };
        (rate, Some((Vec3::new(a, b, c), Vec3::new(d, e, f))))
    };
    let (top, foot) = ends.unzip();
    layout.spring = Spring { on, top, foot, rate, rocker: None };
}

/// For a broken one: that of the first demo with such guides, else one on the carrier above the wheel, where every axle can have it.
fn stand_in(layout: &Layout) -> Spring {
    let same = |demo: &Layout| {
        discriminant(&demo.lower) == discriminant(&layout.lower)
            && discriminant(&demo.upper) == discriminant(&layout.upper)
    };
    let on_the_carrier = || Spring {
        on: SpringOn::Carrier,
        top: Some(Vec3::new(0.0, 600.0, 700.0)),
        foot: Some(Vec3::new(0.0, 650.0, 300.0)),
        rate: 50.0,
        rocker: None,
    };
    let demo = (0..demos::DEMOS.len()).filter_map(demos::layout).find(same);
    demo.map_or_else(on_the_carrier, |demo| demo.spring)
}

/// Pivot x y z, axis x y z, rod joint x y z, spring joint x y z.
const ROCKER_KEY: Parameter = Parameter::optional("rocker");

/// The rocker.
pub const ROCKER: Topic<Layout> = Topic::new(
    |layout, link| {
        let joints = |rocker: Rocker| points(&[rocker.pivot, rocker.axis, rocker.rod, rocker.spring]);
        link.put_if(ROCKER_KEY, layout.spring.rocker.map(joints));
    },
    |link, layout| {
        let point = |v: &[f64]| Vec3::new(v[0], v[1], v[2]);
        let rocker = |v: [f64; 12]| Rocker {
            pivot: point(&v[..3]),
            axis: point(&v[3..6]),
            rod: point(&v[6..9]),
            spring: point(&v[9..]),
        };
        layout.spring.rocker = link.numbers(ROCKER_KEY).map(rocker);
    },
);
