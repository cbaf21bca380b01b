#[cfg(not(any(harbour)))]
use {crate::gauge::level, crate::io};
pub(crate) fn low() -> Level {
    level()
}
