def run(port):
    print(port)


def usage():
    print("tideboard PORT")


if __name__ == "__main__":
    run("dover")
