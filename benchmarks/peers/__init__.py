"""What others would do with the formal problem: exact peers and simple procedures.

None shares code with `evenhung.allot`: they read the instance and nothing else.
"""
