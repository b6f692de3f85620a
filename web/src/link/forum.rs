//! What forums, chats and letters do to a link on its way: forgiven, because it can be told from what the link says.

/// What a text puts right behind a link, as it is and percent-encoded: the end of a sentence, a bracket, a quotation mark, a blank.
const BEHIND: [&str; 34] = [
    ".", ",", ";", ":", "!", "?", ")", "]", "}", ">", "<", "\"", "'", "”", "’", "»", "*", "\u{200b}", "%2E", "%2C",
    "%3B", "%3A", "%21", "%3F", "%29", "%5D", "%7D", "%3E", "%22", "%27", "%20", "%0A", "%0D", "%09",
];

/// A link's parameters without what was put behind them, without line breaks and the blanks round them, and with `&` for its HTML spelling.
pub fn forgiven(parameters: &str) -> String {
    let joined: String = parameters.lines().map(str::trim).collect();
    let joined = joined.replace("&amp;", "&");
    let mut link = joined.as_str();
    while let Some(shorter) = without_last(link) {
        link = shorter;
    }
    link.into()
}

/// The same without what stands behind it, if anything does. No link of the page's ends so.
fn without_last(link: &str) -> Option<&str> {
    let blank = link.trim_end();
    let without = |sign: &str| {
        let (before, end) = link.split_at_checked(link.len().checked_sub(sign.len())?)?;
        end.eq_ignore_ascii_case(sign).then_some(before)
    };
    BEHIND.into_iter().find_map(without).or((blank.len() < link.len()).then_some(blank))
}
