fn poll(args: &Args) -> Tide {
    let env = clean();
    run(args, env)
}
