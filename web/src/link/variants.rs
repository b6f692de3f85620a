//! Other ways in which the same design is built.

use super::layout::changes;
use super::parameter::Parameter;
use super::topic::Topic;
use super::words::{choice, word};
use crate::document::Document;
use crate::document::variant::{LONGEST_VARIANT, MOST_VARIANTS, Variant};
use kernel::Mount;

/// Text: what its author calls it. Where it is, there is a variant.
const NAME: Parameter = Parameter::optional("name");

/// `subframe` or `body`: what its rack is bolted to.
const MOUNT: Parameter = Parameter::optional("mount");

/// The variants in a row, each with its name, its changes as a layout has them, and its rack's mount.
pub const TOPIC: Topic<Document> = Topic::new(
    |document, link| {
        for (at, variant) in document.variants.iter().enumerate() {
            link.within(&prefix(at), |link| {
                link.text(NAME, &variant.name);
                changes::write(&variant.changes, link);
                link.put_if(MOUNT, variant.mount.map(|mount| word(Mount::ALL, mount).into()));
            });
        }
    },
    |link, document| {
        let layout = &document.layout;
        let variant = |at| {
            link.within(&prefix(at), |link| {
                let name = link.has(NAME).then(|| link.text(NAME, LONGEST_VARIANT)).flatten()?;
                let changes = changes::read(link, layout);
                let mount = link.take(MOUNT).and_then(|text| {
                    let mount = choice(Mount::ALL, &text);
                    if mount.is_none() {
                        link.wrong(MOUNT, &text, "subframe or body");
                    }
                    mount
                });
                Some(Variant { name, changes, mount })
            })
        };
        document.variants = (0..MOST_VARIANTS).map_while(variant).collect();
    },
);

/// What the names of a variant's parameters begin with.
fn prefix(at: usize) -> String {
    format!("w{at}.")
}
