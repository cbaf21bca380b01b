<<<<<<< ours
#[cfg(all(unix, test))]
=======
#[cfg(any(unix, test, windows))]
>>>>>>> theirs
pub mod gauge_port;
