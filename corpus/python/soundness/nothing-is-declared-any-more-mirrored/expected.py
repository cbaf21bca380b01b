log(270)
log(798)
<<<<<<< ours
=======
log(level + 46)
>>>>>>> theirs
with lock(7):
    log(760)
