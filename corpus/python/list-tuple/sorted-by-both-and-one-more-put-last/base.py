ALLOWED = {
    "port",
    "debug",
    "jsonp",
    "auth",
    "versions",
}
