use crate::predict::Model as Forecast;
use crate::units::Unit;
