def test_gauge(client):
    @client.route("/alarm")
    def alarm():
        sound()

    answer = client.get("/gauge")
    assert answer.status == 200
    assert "high" in answer.text
    answer = client.get("/alarm")
    assert answer.status == 200

    client.config["STRICT"] = True
    with raises(KeyError) as error:
        client.get("/gauge")
    assert "low" in str(error)
