"""How the service listens: small answers leave at once."""

import asyncio
import socket

from api.cli.serving import Place, _listening


def test_an_answer_does_not_wait_for_the_one_before_to_be_acknowledged() -> None:
    """asyncio turns Nagle's algorithm off on connections of a socket that says it is TCP, and on no other."""

    async def no_delay(door: socket.socket) -> int:
        answered: asyncio.Future[int] = asyncio.get_running_loop().create_future()

        async def answer(_: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
            taken = writer.get_extra_info("socket")
            answered.set_result(taken.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY))
            writer.close()
            await writer.wait_closed()

        async with await asyncio.start_server(answer, sock=door):
            _, writer = await asyncio.open_connection(*door.getsockname())
            told = await answered
            writer.close()
            await writer.wait_closed()
            return told

    with _listening(Place("127.0.0.1", 0, None)) as door:
        door.setblocking(False)
        assert asyncio.run(no_delay(door)) != 0
