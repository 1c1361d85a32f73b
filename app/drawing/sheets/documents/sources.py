"""Where the lists behind the documents were read, said once for every sheet that rests on them."""

from __future__ import annotations

STAGES = "CLC/TS 50131-7, stages of a job, as told by the trade series “Euro standards in close-up”"
SURVEY = (
    "CLC/TS 50131-7, site survey of contents and building, as survey report forms quote it; items marked * from memory"
)
PROPOSAL = "CLC/TS 50131-7, system design proposal, as two sample proposals show it; items marked * from memory"
RECORDS = (
    "CLC/TS 50131-7 10.2, 10.6 and 11.2 as an inspection audit list cites them: tests recorded, system record and log "
    "book supplied, handover checklist, customer's signature"
)
TRAINING = "CSAA STA 1 Guide 2.2, 2.3: user training and written instructions at completion"
NO_CLAIM = (
    "A form to fill in. It claims no conformity with any standard, grade or insurer's list: the competent person who "
    "signs does, for what was surveyed, fitted and tested."
)
