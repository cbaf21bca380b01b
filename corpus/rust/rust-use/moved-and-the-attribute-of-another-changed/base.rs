use tideboard::gauge::types;
#[cfg(feature = "harbour")]
use tideboard::ffi;
#[cfg(feature = "harbour")]
use tides::board;
