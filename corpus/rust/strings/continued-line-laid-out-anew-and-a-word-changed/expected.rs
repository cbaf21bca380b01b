pub fn read(port: &str) -> Level {
    find(port).expect(
        "No gauge is near this port, or the feed that \
                       knows of it does not answer",
    )
}

pub fn help() {
    println!("usage: tideboard [--unit=metres|feet|fathoms] PORT");
}
