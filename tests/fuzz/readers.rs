//! Every reader of text, coverage-guided: the first byte chooses the reader, the others are what it reads. What holds of each is in `readers.rs` of the
//! page's tests.

#![no_main]

use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

#[path = "../tests/page/readers.rs"]
mod readers;

static READERS: LazyLock<[readers::Reader; 8]> = LazyLock::new(|| readers::sound([]).map(|(reader, _)| reader));

fuzz_target!(|bytes: &[u8]| {
    let Some((choice, text)) = bytes.split_first() else { return };
    READERS[usize::from(*choice) % READERS.len()](&String::from_utf8_lossy(text));
});
