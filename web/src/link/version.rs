//! The version of a link.

use super::parameter::{Parameter, VERSION};
use super::reader::Reader;
use super::topic::Topic;
use super::writer::Writer;
use crate::document::Document;
use kernel::clip;

/// The version, first in every link.
const NUMBER: Parameter = Parameter::optional("v");

/// Whoever embeds the page says so in the link; it is nothing of the document's.
const EMBED: Parameter = Parameter::optional("embed");

/// Read first: what is missing from a link depends on its version.
pub const TOPIC: Topic<Document> = Topic::new(write, read);

fn write(_: &Document, link: &mut Writer) {
    link.put(NUMBER, VERSION.to_string());
}

fn read(link: &mut Reader, _: &mut Document) {
    link.take(EMBED);
    let version = link.take(NUMBER);
    match version.as_deref().and_then(|version| version.parse().ok()) {
        Some(known @ 1..=VERSION) => link.version = known,
        _ => {
            let version = version.map_or("no version".into(), |version| format!("version “{}”", clip(&version)));
            link.faults.push(format!(
                "This link has {version}; this page knows versions up to {VERSION} and will try to read it anyway."
            ));
        }
    }
}

/// True for a link that says nothing but its version and that the page is embedded: one of a page that has no axle of its own to show.
pub fn bare(parameters: &str) -> bool {
    let is = |part: &str, parameter: Parameter| part.split_once('=').is_some_and(|(name, _)| name == parameter.name);
    parameters.split('&').any(|part| is(part, EMBED))
        && parameters.split('&').all(|part| is(part, EMBED) || is(part, NUMBER))
}
