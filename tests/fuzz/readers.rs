//! Every reader of text, coverage-guided: the first byte chooses the reader, the others are what it reads. What holds of each is in `readers.rs` of the
//! page's tests.

#![no_main]

use libfuzzer_sys::fuzz_target;
use std::cell::OnceCell;

#[path = "../tests/page/readers.rs"]
mod readers;

thread_local! {
    static READERS: OnceCell<Vec<readers::Reader>> = const { OnceCell::new() };
}

fuzz_target!(|bytes: &[u8]| {
    let Some((choice, text)) = bytes.split_first() else { return };
    READERS.with(|all| {
        let all = all.get_or_init(|| readers::sound().map(|(reader, _)| reader).into());
        all[usize::from(*choice) % all.len()](&String::from_utf8_lossy(text));
    });
});
