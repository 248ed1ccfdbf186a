"""The pages behind the codes, as text: one page a recording, one a lesson. Pure; works from a web space or a stick."""
