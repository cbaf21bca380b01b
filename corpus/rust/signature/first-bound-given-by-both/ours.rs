pub fn publish<T: Clone>(tide: T) {
    board(tide);
}
