//! A parameter of a link: `name=value`.

/// The newest version of links. Older ones are read, and version 2 is still written for a document that it can carry.
pub const VERSION: u32 = 3;

/// Its name, which stands here once for who writes it and who reads it.
#[derive(Clone, Copy)]
pub struct Parameter {
    /// The name.
    pub name: &'static str,
    /// The version since which every link has it; `None` if a link can do without.
    pub since: Option<u32>,
}

impl Parameter {
    /// One that every link has.
    pub const fn needed(name: &'static str) -> Parameter {
        Parameter { name, since: Some(1) }
    }

    /// One that every link has since a version: older ones do not lack it.
    pub const fn since(version: u32, name: &'static str) -> Parameter {
        Parameter { name, since: Some(version) }
    }

    /// One that stands for something an axle, or a lesson, need not have. From version 3, `none` says that an axle does not have it, though its
    /// demo does.
    pub const fn optional(name: &'static str) -> Parameter {
        Parameter { name, since: None }
    }
}
