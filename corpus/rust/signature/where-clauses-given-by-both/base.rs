fn publish<G, P>(gauge: G, port: P) {
}
