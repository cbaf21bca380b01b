mod board {
    use std::fmt;
    use tide::Level;
}
