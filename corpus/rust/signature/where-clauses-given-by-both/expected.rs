fn publish<G, P>(gauge: G, port: P)
where
    G: Gauge,
    P: Port,
{
}
