risky = (
    level > 5
    and wind > 6
    and pressure < 985
)
