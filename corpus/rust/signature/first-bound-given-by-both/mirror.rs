pub fn publish<T: Send + Clone>(tide: T) {
    board(tide);
}
