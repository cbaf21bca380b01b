use tideboard::gauge::types;
#[cfg(feature = "port")]
use tideboard::ffi;
#[cfg(feature = "harbour")]
use tides::board;
