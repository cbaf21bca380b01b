setup(
    name="tideboard",
    install_requires=[
        "quay-clock>=2",
        "tide-feeds>=1",
    ],
)
