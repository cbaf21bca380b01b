ALLOWED = {
    "auth",
    "debug",
    "jsonp",
    "port",
    "versions",
}
