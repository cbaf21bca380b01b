PORTS = {
    "dover": "Dover Pier",
    "wick": "Wick Harbour",
    "oban": "Oban Bay",
}
