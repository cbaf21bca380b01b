fn poll(args: &Args) -> Tide {
    let env = clean();
    output(args)
}
