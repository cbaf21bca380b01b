mod board {
    #![allow(unused)]
    use std::fmt;
    use tide::Level;
}
