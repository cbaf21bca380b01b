fn next(feed: &Feed) {
<<<<<<< ours
    if let Some(tide, level) = feed.last() {
=======
    if let Some(tide, moment) = feed.last() {
>>>>>>> theirs
        draw(tide);
    }
}
