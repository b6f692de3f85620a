//! Frames that have been encoded → a WebM file: Matroska (RFC 9559) as EBML (RFC 8794), a video track alone, its index before its frames.
//!
//! An element is its id, its length in bytes and its content; a length is a number whose leading 1 bit says in how many bytes it stands (RFC 8794, 4).
//! Frames stand in clusters, a new one from each key frame on, each frame with its time after its cluster's, ms. The index (Cues, RFC 9559, 22) has
//! the place of every cluster, counted in bytes from where the segment's content begins; so its numbers are always written in 8 bytes, for its
//! own length must not depend on them.

/// A frame, encoded.
#[derive(Clone, Debug)]
pub struct Frame {
    /// When it is shown, ms from the beginning.
    pub at: f64,
    /// It can be understood without those before it.
    pub key: bool,
    /// What the encoder made of it.
    pub bytes: Vec<u8>,
}

/// What is filmed.
#[derive(Clone, Copy, Debug)]
pub struct Track {
    /// The codec as RFC 9559's registry calls it: `V_VP8`, `V_VP9`.
    pub codec: &'static str,
    /// Width and height, px.
    pub size: [u32; 2],
    /// How long the film lasts, ms; the last frame is shown until then.
    pub lasts: f64,
    /// How long a frame is shown, ms.
    pub each: f64,
}

/// Ids of elements (RFC 8794, 11.2 and RFC 9559, 5).
mod id {
    pub const EBML: u32 = 0x1A45_DFA3;
    pub const EBML_VERSION: u32 = 0x4286;
    pub const EBML_READ_VERSION: u32 = 0x42F7;
    pub const EBML_MAX_ID_LENGTH: u32 = 0x42F2;
    pub const EBML_MAX_SIZE_LENGTH: u32 = 0x42F3;
    pub const DOC_TYPE: u32 = 0x4282;
    pub const DOC_TYPE_VERSION: u32 = 0x4287;
    pub const DOC_TYPE_READ_VERSION: u32 = 0x4285;
    pub const SEGMENT: u32 = 0x1853_8067;
    pub const INFO: u32 = 0x1549_A966;
    pub const TIMESTAMP_SCALE: u32 = 0x2A_D7B1;
    pub const DURATION: u32 = 0x4489;
    pub const MUXING_APP: u32 = 0x4D80;
    pub const WRITING_APP: u32 = 0x5741;
    pub const TRACKS: u32 = 0x1654_AE6B;
    pub const TRACK_ENTRY: u32 = 0xAE;
    pub const TRACK_NUMBER: u32 = 0xD7;
    pub const TRACK_UID: u32 = 0x73C5;
    pub const TRACK_TYPE: u32 = 0x83;
    pub const FLAG_LACING: u32 = 0x9C;
    pub const DEFAULT_DURATION: u32 = 0x23_E383;
    pub const CODEC_ID: u32 = 0x86;
    pub const VIDEO: u32 = 0xE0;
    pub const PIXEL_WIDTH: u32 = 0xB0;
    pub const PIXEL_HEIGHT: u32 = 0xBA;
    pub const CUES: u32 = 0x1C53_BB6B;
    pub const CUE_POINT: u32 = 0xBB;
    pub const CUE_TIME: u32 = 0xB3;
    pub const CUE_TRACK_POSITIONS: u32 = 0xB7;
    pub const CUE_TRACK: u32 = 0xF7;
    pub const CUE_CLUSTER_POSITION: u32 = 0xF1;
    pub const CLUSTER: u32 = 0x1F43_B675;
    pub const TIMESTAMP: u32 = 0xE7;
    pub const SIMPLE_BLOCK: u32 = 0xA3;
}

/// The track's number, and in a block the same as a length of one byte.
const TRACK: u64 = 1;
const TRACK_IN_BLOCK: u8 = 0x81;

/// A key frame's flag in a block (RFC 9559, 10.2).
const KEY: u8 = 0x80;

/// A frame's time after its cluster's stands in 16 bits with a sign, ms.
const LONGEST_CLUSTER: u64 = 30_000;

/// The file.
pub fn webm(track: &Track, frames: &[Frame]) -> Vec<u8> {
    let clusters: Vec<(u64, Vec<u8>)> = clusters(frames).map(cluster).collect();
    let head = [info(track), tracks(track)].concat();
    // The index is as long with any places in it.
    let length = cues(clusters.iter().map(|(time, _)| (*time, 0))).len();
    let mut place = (head.len() + length) as u64;
    let placed = clusters.iter().map(|(time, bytes)| {
        let at = place;
        place += bytes.len() as u64;
        (*time, at)
    });
    let mut content = [head, cues(placed)].concat();
    clusters.into_iter().for_each(|(_, bytes)| content.extend(bytes));
    [header(), element(id::SEGMENT, &content)].concat()
}

fn whole_ms(ms: f64) -> u64 {
    ms.round().max(0.0) as u64
}

/// Frames that stand together: each row begins with a key frame and is no longer than their times allow.
fn clusters(frames: &[Frame]) -> impl Iterator<Item = &[Frame]> {
    let mut began = 0;
    frames.chunk_by(move |_, next| {
        let at = whole_ms(next.at);
        let same = !next.key && at - began < LONGEST_CLUSTER;
        if !same {
            began = at;
        }
        same
    })
}

/// A cluster, and its time, ms.
fn cluster(frames: &[Frame]) -> (u64, Vec<u8>) {
    let time = frames.first().map_or(0, |frame| whole_ms(frame.at));
    let mut content = number(id::TIMESTAMP, time);
    for frame in frames {
        let [high, low] = ((whole_ms(frame.at) - time) as u16).to_be_bytes();
        let head = [TRACK_IN_BLOCK, high, low, if frame.key { KEY } else { 0 }];
        content.extend(element(id::SIMPLE_BLOCK, &[&head[..], &frame.bytes].concat()));
    }
    (time, element(id::CLUSTER, &content))
}

fn header() -> Vec<u8> {
    let parts = [
        number(id::EBML_VERSION, 1),
        number(id::EBML_READ_VERSION, 1),
        number(id::EBML_MAX_ID_LENGTH, 4),
        number(id::EBML_MAX_SIZE_LENGTH, 8),
        element(id::DOC_TYPE, b"webm"),
        number(id::DOC_TYPE_VERSION, 4),
        number(id::DOC_TYPE_READ_VERSION, 2),
    ];
    element(id::EBML, &parts.concat())
}

/// Times are in ms: 1,000,000 ns.
fn info(track: &Track) -> Vec<u8> {
    let parts = [
        number(id::TIMESTAMP_SCALE, 1_000_000),
        element(id::DURATION, &track.lasts.to_be_bytes()),
        element(id::MUXING_APP, b"Ghostpin"),
        element(id::WRITING_APP, b"Ghostpin"),
    ];
    element(id::INFO, &parts.concat())
}

fn tracks(track: &Track) -> Vec<u8> {
    const VIDEO: u64 = 1;
    let [width, height] = track.size.map(u64::from);
    let size = [number(id::PIXEL_WIDTH, width), number(id::PIXEL_HEIGHT, height)];
    let parts = [
        number(id::TRACK_NUMBER, TRACK),
        number(id::TRACK_UID, TRACK),
        number(id::TRACK_TYPE, VIDEO),
        number(id::FLAG_LACING, 0),
        number(id::DEFAULT_DURATION, whole_ms(track.each * 1e6)),
        element(id::CODEC_ID, track.codec.as_bytes()),
        element(id::VIDEO, &size.concat()),
    ];
    element(id::TRACKS, &element(id::TRACK_ENTRY, &parts.concat()))
}

/// The index: each cluster's time and place.
fn cues(places: impl Iterator<Item = (u64, u64)>) -> Vec<u8> {
    let point = |(time, place)| {
        let at = [number(id::CUE_TRACK, TRACK), number(id::CUE_CLUSTER_POSITION, place)];
        let parts = [number(id::CUE_TIME, time), element(id::CUE_TRACK_POSITIONS, &at.concat())];
        element(id::CUE_POINT, &parts.concat())
    };
    element(id::CUES, &places.map(point).collect::<Vec<_>>().concat())
}

/// A number that has no sign, always in 8 bytes.
fn number(id: u32, value: u64) -> Vec<u8> {
    element(id, &value.to_be_bytes())
}

/// An id stands as it is, without leading zeros; a length always in 8 bytes, of which the first says so.
fn element(id: u32, content: &[u8]) -> Vec<u8> {
    let mut bytes: Vec<u8> = id.to_be_bytes().into_iter().skip_while(|byte| *byte == 0).collect();
    bytes.extend((content.len() as u64 | 1 << 56).to_be_bytes());
    bytes.extend(content);
    bytes
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reads elements as RFC 8794 says, by nothing but their ids' and lengths' leading bits.
    fn read(bytes: &[u8]) -> Vec<(u32, &[u8])> {
        let (mut at, mut found) = (0, Vec::new());
        while at < bytes.len() {
            let id_size = bytes[at].leading_zeros() as usize + 1;
            let id = bytes[at..at + id_size].iter().fold(0, |id, byte| id << 8 | u32::from(*byte));
            at += id_size;
            let size = bytes[at].leading_zeros() as usize + 1;
            let first = u64::from(bytes[at]) & ((1 << (8 - size)) - 1);
            let length = bytes[at + 1..at + size].iter().fold(first, |sum, byte| sum << 8 | u64::from(*byte)) as usize;
            at += size;
            found.push((id, &bytes[at..at + length]));
            at += length;
        }
        assert_eq!(at, bytes.len());
        found
    }

    fn part<'a>(parts: &[(u32, &'a [u8])], id: u32) -> &'a [u8] {
        parts.iter().find(|(known, _)| *known == id).expect("the element").1
    }

    fn value(bytes: &[u8]) -> u64 {
        bytes.iter().fold(0, |sum, byte| sum << 8 | u64::from(*byte))
    }

    /// What was put in comes out again, in order and on time; the index leads to clusters that begin with key frames.
    #[test]
    fn frames_stand_where_the_index_says() {
        let key = |k: usize| k.is_multiple_of(60);
        let frame =
            |k: usize| Frame { at: k as f64 * 1000.0 / 30.0, key: key(k), bytes: vec![k as u8; 5 + 40 * (k % 7)] };
        let mut frames: Vec<Frame> = (0..200).map(frame).collect();
        // A frame that no key frame comes before for longer than a cluster can be.
        frames.push(Frame { at: 45_000.0, key: false, bytes: vec![9; 3] });
        let track = Track { codec: "V_VP9", size: [1920, 1080], lasts: 46_000.0, each: 1000.0 / 30.0 };
        let file = webm(&track, &frames);
        let parts = read(&file);
        assert_eq!(part(&read(part(&parts, id::EBML)), id::DOC_TYPE), b"webm");
        let content = part(&parts, id::SEGMENT);
        let segment = read(content);
        let duration = part(&read(part(&segment, id::INFO)), id::DURATION).try_into().expect("8 bytes");
        assert_eq!(f64::from_be_bytes(duration), 46_000.0);
        let entry = read(part(&read(part(&segment, id::TRACKS)), id::TRACK_ENTRY));
        let video = read(part(&entry, id::VIDEO));
        assert_eq!((value(part(&video, id::PIXEL_WIDTH)), value(part(&video, id::PIXEL_HEIGHT))), (1920, 1080));
        let mut times = Vec::new();
        for (_, point) in read(part(&segment, id::CUES)) {
            let point = read(point);
            let time = value(part(&point, id::CUE_TIME));
            let place = value(part(&read(part(&point, id::CUE_TRACK_POSITIONS)), id::CUE_CLUSTER_POSITION)) as usize;
            let cluster = read(&content[place..])[0];
            assert_eq!(cluster.0, id::CLUSTER);
            let inside = read(cluster.1);
            assert_eq!(value(part(&inside, id::TIMESTAMP)), time);
            times.push(time);
        }
        assert_eq!(times, [0, 2000, 4000, 6000, 45_000]);
        let clusters = segment.iter().filter(|(id, _)| *id == id::CLUSTER);
        let mut back = Vec::new();
        for (_, cluster) in clusters {
            let inside = read(cluster);
            let time = value(part(&inside, id::TIMESTAMP));
            for (_, block) in inside.iter().filter(|(id, _)| *id == id::SIMPLE_BLOCK) {
                let after = i16::from_be_bytes([block[1], block[2]]);
                back.push((time as i64 + i64::from(after), block[3] == KEY, block[4..].to_vec()));
            }
        }
        let put: Vec<_> = frames.into_iter().map(|frame| (frame.at.round() as i64, frame.key, frame.bytes)).collect();
        assert_eq!(back, put);
    }
}
