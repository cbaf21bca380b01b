pub fn board(mut feed: Feed) {
    gauges
        .nearest(port)
        .load(&mut feed)
        // The feed is asked for the levels of all gauges near the port, in the order of
        // their distance, and answers with what it knows of each: whoever has none at all
        // is told so by an error of the kind `tide::Error::Empty`, which nobody catches.
        .unwrap();
}
