#[cfg(not(any(harbour)))]
use {crate::gauge::level, crate::io};
const RETRIES: u32 = 87;
pub(crate) fn low() -> Level {
    level()
}
