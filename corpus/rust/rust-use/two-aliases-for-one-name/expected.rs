<<<<<<< ours
use crate::predict::Model as Forecast;
=======
use crate::predict::Model as Predictor;
>>>>>>> theirs
use crate::units::{Length, Unit};
