use crate::predict::Model;
use crate::units::Unit;
