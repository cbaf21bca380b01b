use std::fmt;
pub(crate) use self::feed::{Feed, Level};

pub struct Board;
