<<<<<<< ours
while feed.open and not stop and feed.ready:
=======
while feed.open and not stop and clock.running:
>>>>>>> theirs
    feed.poll()
