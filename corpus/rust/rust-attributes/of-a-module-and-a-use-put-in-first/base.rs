mod board {
    use tide::Level;
}
