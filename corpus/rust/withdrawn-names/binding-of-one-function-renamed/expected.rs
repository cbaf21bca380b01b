fn store(rows: &[Row]) {
    disk::write(rows);
}

fn refresh(station: &Station) {
    let page = fetch(station);
    let levels = parse(&page);
    board::show(&levels);
<<<<<<< ours
    store(&rows);
=======
>>>>>>> theirs
}
