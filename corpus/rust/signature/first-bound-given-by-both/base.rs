pub fn publish<T>(tide: T) {
    board(tide);
}
