use std::fmt;
#[allow(unused_imports)]
pub(crate) use self::feed::{Feed, Level};

pub struct Board;
