use std::fmt;
#[allow(unused_imports)]
pub(crate) use self::feed::{Feed, Reading};

pub struct Board;
