mod board {
    #![allow(unused)]
    use tide::Level;
}
