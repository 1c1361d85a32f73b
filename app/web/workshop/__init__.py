"""Heavy work beside the server: processes with limits on time and memory, so that others go on being served."""
