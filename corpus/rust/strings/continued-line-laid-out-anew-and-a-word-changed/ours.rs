pub fn read(port: &str) -> Level {
    find(port).expect(
        "No gauge is near this port, or the feed that \
         knows of it dose not answer",
    )
}

pub fn help() {
    println!("usage: tideboard [--unit=metres|feet] \
              PORT");
}
