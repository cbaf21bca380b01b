#[cfg(not(any(harbour)))]
use {crate::gauge::surge, crate::io};
pub(crate) fn low() -> Level {
    level()
}
