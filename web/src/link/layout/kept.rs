//! Parts of a layout file that are kept as they are: bushes, subframe, boxes, solid. Each has its short spelling; what it cannot say to the last
//! digit and letter stands in the link as the file has it.

use super::short::{Kept, whole};
use super::{boxes, bushes, solid, subframe};
use crate::link::parameter::Parameter;
use crate::link::reader::Reader;
use crate::link::topic::Topic;
use crate::link::writer::Writer;
use kernel::{Layout, clip};
use serde_json::{Map, Value};

const PARTS: [Kept; 4] = [bushes::KEPT, subframe::KEPT, boxes::KEPT, solid::KEPT];

/// JSON as text: what the short spellings don't say.
const REST: Parameter = Parameter::optional("kept");

/// Longer than any file, characters.
const LONGEST: usize = Layout::MAX_FILE;

/// All of them.
pub const TOPIC: Topic<Layout> = Topic::new(write, read);

fn write(layout: &Layout, link: &mut Writer) {
    let mut rest = Map::new();
    for (part, value) in layout.loose_parts() {
        let kept = PARTS.iter().find(|kept| kept.part == part);
        match kept.and_then(|kept| Some((kept, short(kept, &value)?))) {
            Some((kept, texts)) => {
                for (parameter, text) in kept.parameters.iter().zip(texts) {
                    text.iter().for_each(|text| link.joined(*parameter, text));
                }
            }
            None => drop(rest.insert(part, whole(&value))),
        }
    }
    if !rest.is_empty() {
        link.text(REST, &Value::Object(rest).to_string());
    }
}

/// The short spelling, if it says all of a part.
fn short(kept: &Kept, value: &Value) -> Option<Vec<Option<String>>> {
    (kept.write)(value).filter(|texts| (kept.read)(texts).as_ref() == Some(&whole(value)))
}

fn read(link: &mut Reader, layout: &mut Layout) {
    for kept in &PARTS {
        let texts: Vec<Option<String>> = kept.parameters.iter().map(|parameter| link.take(*parameter)).collect();
        let Some((parameter, text)) =
            kept.parameters.iter().zip(&texts).find_map(|(p, text)| Some((p, text.as_ref()?)))
        else {
            continue;
        };
        match (kept.read)(&texts) {
            Some(value) => put(link, layout, kept.part, value),
            None => link.wrong(*parameter, text, kept.wanted),
        }
    }
    if let Some(text) = link.text(REST, LONGEST) {
        read_rest(link, &text, layout);
    }
}

/// Puts a part into the layout, or says why not.
fn put(link: &mut Reader, layout: &mut Layout, part: &str, value: Value) {
    if let Err(why) = layout.put_loose_part(part, value) {
        link.faults.push(format!("The link’s “{part}” is left out: {why}."));
    }
}

fn read_rest(link: &mut Reader, text: &str, layout: &mut Layout) {
    let Ok(Value::Object(parts)) = serde_json::from_str(text) else {
        return link.wrong(REST, text, "parts of a layout file");
    };
    for (part, value) in parts {
        if PARTS.iter().any(|kept| kept.part == part) && !layout.loose_parts().contains_key(&part) {
            put(link, layout, &part, value);
        } else {
            let (key, part) = (link.key(REST), clip(&part));
            link.faults.push(format!("The link’s “{key}” has “{part}”, not a part of its own; it is left out."));
        }
    }
}
