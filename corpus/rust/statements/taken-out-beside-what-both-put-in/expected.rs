fn poll(args: &Args) -> Tide {
    output(args)
}
