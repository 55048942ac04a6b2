/**
 * The topology. Read it as a table of contents:
 *
 * <pre>
 *  facts ──► FactIntake ──► by-subject ──► Dossiers ──► standings
 *              │   ▲                        ▲   │  ├──► edges ──► GlobalPedigree
 *              │   └─ revocations           │   │  └──► plots ──► IsolationJoin
 *              ▼                            │   ▼                     │
 *          quarantine                       └─ reports ◄──────────────┘
 *  facts ──► FactChain ──► chain, checkpoints
 * </pre>
 *
 * No rule lives here: rules are in {@code gates}, judging in {@code judging}.
 */
package org.kornspur.processors.stream;
