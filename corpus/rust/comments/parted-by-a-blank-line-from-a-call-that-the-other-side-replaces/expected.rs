fn close(server: &mut Server) {
    // Wait for each of them before the feed is closed:
    // Stations that report late would find the feed closed.
    for station in &server.late {
        station.wait();
    }
    server.feed.close_all();
    server.join();
}
