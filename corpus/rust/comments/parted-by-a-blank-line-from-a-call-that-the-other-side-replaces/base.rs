fn close(server: &mut Server) {
    // Wait before the feed is closed:
    // Stations that report late would find the feed closed.
    server.feed.close();
    server.join();
}
