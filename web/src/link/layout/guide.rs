//! What holds the carrier, below and above: the kind of a guide and its joints.

use crate::content::demos;
use crate::link::parameter::Parameter;
use crate::link::reader::Reader;
use crate::link::topic::Topic;
use crate::link::writer::{Writer, points};
use kernel::{Guide, Layout, Rod, Vec3};

/// The parameters of a guide.
struct Keys {
    /// `arms`, `wishbone`, `strut`.
    kind: Parameter,
    /// An arm: inner x y z, outer x y z; a wishbone: body joint x y z.
    front: Parameter,
    /// The same.
    rear: Parameter,
    /// A wishbone’s ball joint x y z.
    outer: Parameter,
    /// A strut: top x y z, foot x y z.
    strut: Parameter,
}

impl Keys {
    const fn new([kind, front, rear, outer, strut]: [&'static str; 5]) -> Keys {
        Keys {
            kind: Parameter::needed(kind),
            front: Parameter::needed(front),
            rear: Parameter::needed(rear),
            outer: Parameter::needed(outer),
            strut: Parameter::needed(strut),
        }
    }
}

const LOWER_KEYS: Keys = Keys::new(["lower", "lf", "lr", "lo", "ls"]);
const UPPER_KEYS: Keys = Keys::new(["upper", "uf", "ur", "uo", "us"]);

/// The lower guide.
pub const LOWER: Topic<Layout> = Topic::new(
    |layout, link| write(&layout.lower, &LOWER_KEYS, link),
    |link, layout| layout.lower = read(link, &LOWER_KEYS, &layout.lower, |demo| demo.lower),
);

/// The upper guide.
pub const UPPER: Topic<Layout> = Topic::new(
    |layout, link| write(&layout.upper, &UPPER_KEYS, link),
    |link, layout| layout.upper = read(link, &UPPER_KEYS, &layout.upper, |demo| demo.upper),
);

fn write(guide: &Guide, keys: &Keys, link: &mut Writer) {
    match guide {
        Guide::Arms { front, rear } => {
            link.put(keys.kind, "arms");
            write_rod(keys.front, front, link);
            write_rod(keys.rear, rear, link);
        }
        Guide::Wishbone { front, rear, outer } => {
            link.put(keys.kind, "wishbone");
            for (key, point) in [(keys.front, front), (keys.rear, rear), (keys.outer, outer)] {
                link.put(key, points(&[*point]));
            }
        }
        Guide::Strut { top, foot } => {
            link.put(keys.kind, "strut");
            link.put(keys.strut, points(&[*top, *foot]));
        }
    }
}

/// A guide of the kind the link says; missing numbers come from the first demo that has one of that kind.
fn read(link: &mut Reader, keys: &Keys, stand_in: &Guide, of: fn(Layout) -> Guide) -> Guide {
    let named = link.take(keys.kind);
    let demo = |wanted: fn(&Guide) -> bool| (0..demos::DEMOS.len()).filter_map(demos::layout).map(of).find(wanted);
    let guide = match named.as_deref() {
        Some("arms") => demo(|guide| matches!(guide, Guide::Arms { .. })),
        Some("wishbone") => demo(|guide| matches!(guide, Guide::Wishbone { .. })),
        Some("strut") => demo(|guide| matches!(guide, Guide::Strut { .. })),
        Some(other) => {
            link.wrong(keys.kind, other, "arms, wishbone or strut");
            None
        }
        None => None,
    };
    let point = |link: &mut Reader, key, stand_in| link.numbers(key).map_or(stand_in, Vec3::from);
    match guide.unwrap_or(stand_in.clone()) {
        Guide::Arms { front, rear } => {
            Guide::Arms { front: read_rod(link, keys.front, front), rear: read_rod(link, keys.rear, rear) }
        }
        Guide::Wishbone { front, rear, outer } => Guide::Wishbone {
            front: point(link, keys.front, front),
            rear: point(link, keys.rear, rear),
            outer: point(link, keys.outer, outer),
        },
        Guide::Strut { top, foot } => {
            let Rod { inner: top, outer: foot } = read_rod(link, keys.strut, Rod { inner: top, outer: foot });
            Guide::Strut { top, foot }
        }
    }
}

/// Writes a rod: inner x y z, outer x y z.
pub fn write_rod(key: Parameter, rod: &Rod, link: &mut Writer) {
    link.put(key, points(&[rod.inner, rod.outer]));
}

/// Reads one.
pub fn read_rod(link: &mut Reader, key: Parameter, stand_in: Rod) -> Rod {
    let Some([a, b, c, d, e, f]) = link.numbers(key) else { return stand_in };
    Rod { inner: Vec3::new(a, b, c), outer: Vec3::new(d, e, f) }
}
