fn store(rows: &[Row]) {
    disk::write(rows);
}

fn refresh(station: &Station) {
    let page = fetch(station);
    let rows = parse(&page);
    board::show(&rows);
    store(&rows);
}
