//! The version of a link.

use super::absent;
use super::parameter::{Parameter, VERSION};
use super::reader::Reader;
use super::topic::Topic;
use super::writer::Writer;
use crate::document::{Document, Hands};
use kernel::{Change, Changes, Layout, LeftOrRight, Sides, clip};

/// The version, first in every link.
const NUMBER: Parameter = Parameter::optional("v");

/// Whoever embeds the page says so in the link; it is nothing of the document's.
const EMBED: Parameter = Parameter::optional("embed");

/// Read first: what is missing from a link depends on its version.
pub const TOPIC: Topic<Document> = Topic::new(write, read);

/// The version that says all of a document: 2 has no changes but one ride height for all its axles, no variants, no
/// axles beside its own, no rim and no parts of a file that nothing is computed from yet.
pub fn of(document: &Document) -> u32 {
    let mut standing = Changes::default();
    standing.set(Sides::Both, Change::Ride, document.ride());
    let plain = |layout: &Layout| {
        layout.changes == standing && layout.loose_parts().is_empty() && layout.wheel.rim_radius.is_none()
    };
    let told = document.story.iter().flat_map(|shot| [&shot.layout].into_iter().chain(&shot.over));
    let others = document.compared.iter().chain(told);
    let as_drawn = document.side == LeftOrRight::Left && document.hands == Hands::Design;
    let two = as_drawn
        && document.series.is_empty()
        && document.variants.is_empty()
        && document.beside.is_empty()
        && [&document.layout].into_iter().chain(others).all(plain);
    if two { 2 } else { VERSION }
}

fn write(_: &Document, link: &mut Writer) {
    link.put(NUMBER, link.version.to_string());
    if link.version >= 3 {
        link.assume(&absent::DOCUMENT);
    }
}

fn read(link: &mut Reader, _: &mut Document) {
    link.take(EMBED);
    let said = link.take(NUMBER);
    // Of a link that does not say it: the oldest in which every value is written.
    let version: u32 = said.as_deref().and_then(|text| text.parse().ok()).unwrap_or_default();
    link.version = if version == 0 { 2 } else { version.min(VERSION) };
    match (version, said) {
        (1..=VERSION, _) => {}
        (0, said) => {
            let said = said.map_or("no version".into(), |said| format!("version “{}”", clip(&said)));
            link.faults.push(format!(
                "This link has {said}; this page knows versions up to {VERSION} and will try to read it anyway."
            ));
        }
        _ => link.faults.push(format!(
            "This link is of version {version}; this page knows versions up to {VERSION} and is too old for it. Reload the page; what is shown now \
             may not be what was meant."
        )),
    }
    if link.version >= 3 {
        link.assume(&absent::DOCUMENT);
    }
}

/// True for a link that says nothing but its version and that the page is embedded: one of a page that has no axle of its own to show.
pub fn bare(parameters: &str) -> bool {
    let is = |part: &str, parameter: Parameter| part.split_once('=').is_some_and(|(name, _)| name == parameter.name);
    parameters.split('&').any(|part| is(part, EMBED))
        && parameters.split('&').all(|part| is(part, EMBED) || is(part, NUMBER))
}
