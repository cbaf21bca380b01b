<<<<<<< ours
use tide::Gauge;
=======
use crate::tide::{Gauge, Height};
>>>>>>> theirs

pub struct Board;
