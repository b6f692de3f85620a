//! Variants: other ways in which the same design is built. Stock, lowered, with spacers, with other shims.

use kernel::{Change, Changes, Layout, Mount, validate};

/// So many adjusters a car can have: more than any has, and few enough to try all by twos.
pub const MOST_ADJUSTERS: usize = 16;

/// One way in which a design is built.
#[derive(Clone, Debug, PartialEq)]
pub struct Variant {
    /// What its author calls it.
    pub name: String,
    /// What it has different from the design.
    pub changes: Changes,
    /// What its rack is bolted to, where there is one.
    pub mount: Option<Mount>,
}

/// A document has at most this many.
pub const MOST_VARIANTS: usize = 6;

/// Longest name, characters.
pub const LONGEST_VARIANT: usize = 40;

impl Variant {
    /// A layout as it is now.
    pub fn of(layout: &Layout, name: String) -> Variant {
        Variant { name, changes: layout.changes.clone(), mount: layout.rack.as_ref().map(|rack| rack.mount) }
    }

    /// A design, built so.
    pub fn layout(&self, design: &Layout) -> Layout {
        let mut layout = Layout { changes: self.changes.clone(), ..design.clone() };
        if let (Some(rack), Some(mount)) = (&mut layout.rack, self.mount) {
            rack.mount = mount;
        }
        layout
    }

    /// True if a design can be built so: it has all the parts that are changed, and no problem then.
    pub fn fits(&self, design: &Layout) -> bool {
        let all = Change::all(design);
        self.changes.iter().all(|(_, change, _)| all.contains(&change)) && validate(&self.layout(design)).is_empty()
    }

    /// The same under the variant's own name, to be laid over another.
    pub fn compared(&self, design: &Layout) -> Layout {
        Layout { name: self.name.clone(), ..self.layout(design) }
    }
}
