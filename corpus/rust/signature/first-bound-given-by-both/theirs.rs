pub fn publish<T: Send>(tide: T) {
    board(tide);
}
