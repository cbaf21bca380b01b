log(270)
log(798)
log(539)
log(760)
level = 732
