//! Parts that are nothing but the numbers of their tables: a new one is a name and a topic here, and a line in the table of topics.

use crate::link::absent::{DAMPER as DAMPER_THEN, unless};
use crate::link::parameter::Parameter;
use crate::link::topic::Topic;
use kernel::field::{DAMPER as DAMPER_FIELDS, STOPS as STOPS_FIELDS};
use kernel::{Damper, LIMIT, Layout};

/// Top mount to rod guide, guide to piston, rod diameter, friction.
const DAMPER_KEY: Parameter = Parameter::optional("damper");

/// The damper inside a strut.
pub const DAMPER: Topic<Layout> = Topic::new(
    |layout, link| {
        let unsaid = unless(Damper::default(), DAMPER_THEN).filter(|_| link.version >= 3);
        link.part(DAMPER_KEY, layout.damper.or(unsaid).as_ref(), &DAMPER_FIELDS);
    },
    |link, layout| {
        let said = link.has(DAMPER_KEY);
        layout.damper = link.part(DAMPER_KEY, &DAMPER_FIELDS, LIMIT);
        if !said && link.version >= 3 {
            layout.damper = unless(DAMPER_THEN, Damper::default());
        }
    },
);

/// Travel at the bump and at the rebound stop.
const STOPS_KEY: Parameter = Parameter::optional("stops");

/// The stops.
pub const STOPS: Topic<Layout> = Topic::new(
    |layout, link| link.part(STOPS_KEY, layout.stops.as_ref(), &STOPS_FIELDS),
    |link, layout| layout.stops = link.part(STOPS_KEY, &STOPS_FIELDS, LIMIT),
);
