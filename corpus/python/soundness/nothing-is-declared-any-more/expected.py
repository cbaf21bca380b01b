log(270)
level = 732
log(798)
log(539)
<<<<<<< ours
log(level + 46)
log(760)
=======
with lock(7):
    log(760)
>>>>>>> theirs
