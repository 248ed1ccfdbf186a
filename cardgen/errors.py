"""The one error a teacher may meet."""


class TeacherError(Exception):
    """Something the teacher can mend, said in her words.

    `message` is one sentence that says what is wrong, `hint` (may be empty) what to do about it. Raised where the
    remedy is known; only the command line catches it. Everything else that is raised is a bug of ours.
    """

    def __init__(self, message: str, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint
