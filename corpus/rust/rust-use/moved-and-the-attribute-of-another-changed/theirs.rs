#[cfg(feature = "harbour")]
use tideboard::ffi;
use tideboard::gauge::types;
#[cfg(feature = "harbour")]
use tides::board;
