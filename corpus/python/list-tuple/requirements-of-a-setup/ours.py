setup(
    name="tideboard",
    install_requires=[
        "quay-clock>=2",
        "radio-mast",
        "tide-feeds>=1",
    ],
)
