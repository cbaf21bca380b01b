use crate::predict::Model as Predictor;
use crate::units::{Length, Unit};
