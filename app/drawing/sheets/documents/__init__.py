"""Documents of the published list for a system's life: survey, proposal, as-fitted record, tests, handover, log book.

The list is that of CLC/TS 50131-7 as quoted in trade series, audit lists and sample forms; its text was not at hand.
Nothing here claims conformity: blanks stay blank until the person responsible fills them in.
"""
