pub fn publish<T: Clone + Send>(tide: T) {
    board(tide);
}
