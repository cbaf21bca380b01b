pub enum Reading {
    Missing,
<<<<<<< ours
    Level { metres: f64 },
=======
    Level { feet: f64 },
>>>>>>> theirs
}
