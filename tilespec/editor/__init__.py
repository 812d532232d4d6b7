"""A spec while it is being written: what an editor asks for, as plain functions; `server.py` alone knows the protocol."""
