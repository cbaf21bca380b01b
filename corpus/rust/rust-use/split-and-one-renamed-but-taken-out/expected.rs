use std::fmt;

<<<<<<< ours
=======
use tide::{Gauge, Port};

>>>>>>> theirs
use tide::Gauge;
use tide::Level as Height;
use tide::Port;

pub struct Board;
